#include "engine/model/chart/chart.h"

#include <algorithm>

namespace halfsplit::model::chart {

std::optional<int> Chart::find_state(std::string_view id) const {
    const auto found =
        std::find_if(states.begin(), states.end(), [&](const State& state) { return state.id == id; });
    if (id.empty() || found == states.end()) return std::nullopt;
    return static_cast<int>(found - states.begin());
}

}  // namespace halfsplit::model::chart
