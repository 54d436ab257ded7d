#include "engine/diagnosis/suspects/readings.h"

#include <algorithm>
#include <tuple>

namespace halfsplit::diagnosis {

std::vector<Reading> distinct_readings(std::vector<Reading> readings) {
    const auto key = [](const Reading& each) { return std::tuple(each.state, each.finding, each.value); };
    std::ranges::sort(readings, {}, key);
    readings.erase(std::unique(readings.begin(), readings.end()), readings.end());
    return readings;
}

}  // namespace halfsplit::diagnosis
