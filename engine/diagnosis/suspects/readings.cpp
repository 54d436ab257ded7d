#include "engine/diagnosis/suspects/readings.h"

#include <algorithm>
#include <tuple>

namespace halfsplit::diagnosis {

std::vector<Reading> distinct_readings(std::vector<Reading> readings) {
    const auto key = [](const Reading& each) { return std::tuple(each.state, each.finding, each.value); };
    std::ranges::sort(readings, {}, [&key](const Reading& each) {
        return std::tuple_cat(key(each), std::tuple(!each.is_complaint));
    });
    const auto same = [&key](const Reading& a, const Reading& b) { return key(a) == key(b); };
    readings.erase(std::unique(readings.begin(), readings.end(), same), readings.end());
    return readings;
}

}  // namespace halfsplit::diagnosis
