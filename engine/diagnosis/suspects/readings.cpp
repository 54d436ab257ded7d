#include "engine/diagnosis/suspects/readings.h"

#include <algorithm>
#include <tuple>

namespace halfsplit::diagnosis {

std::vector<Reading> distinct_readings(std::vector<Reading> readings) {
    const auto key = [](const Reading& each) { return std::tuple(each.state, each.finding, each.value); };
    std::ranges::sort(readings, {}, key);
    const auto same = std::ranges::unique(readings);
    readings.erase(same.begin(), same.end());
    return readings;
}

}  // namespace halfsplit::diagnosis
