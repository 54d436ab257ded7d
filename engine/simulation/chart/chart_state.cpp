#include "engine/simulation/chart/chart_state.h"

#include <utility>

namespace halfsplit::simulation {

std::vector<LogLine> take_log(ChartState& state) {
    return std::exchange(state.log, {});
}

}  // namespace halfsplit::simulation
