#include "engine/diagnosis/sheet/sheet.h"

#include <numeric>
#include <utility>

#include "engine/base/index.h"
#include "engine/diagnosis/sheet/state_sheet.h"

namespace halfsplit::diagnosis {

namespace {

/// The circuit with everything at rest, whether it would stay so or not: that is enough to see how it is
/// wired.
struct AtRest {
    network::Network network;
    simulation::OperatingPoint point;
};

tl::expected<AtRest, Diagnostics> at_rest(const model::Circuit& circuit) {
    auto network = network::build_network(circuit, {});
    if (!network) return tl::unexpected(network.error());
    auto point = simulation::solve_in_conditions(*network, network->conditions);
    if (!point) return tl::unexpected(one_problem(point.error().message));
    return AtRest{std::move(*network), std::move(*point)};
}

Diagnostics in_state(const model::OperatingState& state, Diagnostics problems) {
    for (Diagnostic& each : problems) each.message = "in state '" + state.id + "' " + each.message;
    return problems;
}

}  // namespace

tl::expected<Sheet, Diagnostics> make_sheet(const model::Circuit& circuit, const SheetOptions& options) {
    const auto rest = at_rest(circuit);
    if (!rest) return tl::unexpected(rest.error());
    const tracing::Wiring wiring(circuit, rest->network, rest->point);
    const Walk walk(wiring);
    const std::vector<TestPoint> points = test_points(wiring, walk);
    std::vector<int> states = options.states;
    if (states.empty()) {
        states.resize(circuit.states.size());
        std::iota(states.begin(), states.end(), 0);
    }
    Sheet sheet{cautions_for(circuit, options.parts), {}};
    for (std::size_t i = 0; i < states.size(); ++i) {
        if (options.tell) options.tell(static_cast<int>(i), static_cast<int>(states.size()));
        const model::OperatingState& state = circuit.states[at(states[i])];
        const auto settled = simulation::settle(circuit, {}, state.steps);
        if (!settled) return tl::unexpected(in_state(state, settled.error()));
        auto made = state_sheet({circuit, walk, points, options.parts}, states[i], *settled);
        if (!made) return tl::unexpected(in_state(state, made.error()));
        sheet.states.push_back(std::move(*made));
    }
    return sheet;
}

}  // namespace halfsplit::diagnosis
