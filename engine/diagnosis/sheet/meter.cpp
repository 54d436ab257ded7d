#include "engine/diagnosis/sheet/meter.h"

#include "engine/base/index.h"
#include "engine/instruments/voltmeter.h"
#include "engine/network/branches_in.h"
#include "engine/network/nodal/solver.h"

namespace halfsplit::diagnosis {

namespace {

/// The circuit's branches, then a meter for each observation, not yet connected.
std::vector<network::Branch> branches_with_meters(const simulation::Settled& settled,
                                                  const std::vector<Observation>& observations) {
    std::vector<network::Branch> branches = network::branches_in(settled.network, settled.point.conditions);
    for (const Observation& each : observations)
        branches.push_back({each.at, each.against, model::Resistance{instruments::kVoltmeterOhm}, false});
    return branches;
}

}  // namespace

tl::expected<std::vector<double>, Diagnostics> metered_v(const simulation::Settled& settled,
                                                         const std::vector<Observation>& observations) {
    network::Solver solver(settled.network.node_count, branches_with_meters(settled, observations));
    network::Solution solution;
    if (!solver.solve_into(solution))
        return tl::unexpected(one_problem("there is no operating point to measure at"));
    std::vector<double> volts;
    int meter = static_cast<int>(settled.network.branches.size());
    for (std::size_t i = 0; i < observations.size(); ++i, ++meter) {
        solver.set_conducts(meter, true);
        if (!solver.solve_into(solution))
            return tl::unexpected(one_problem("there is no operating point with a voltmeter connected"));
        volts.push_back(solution.current_a[at(meter)] * instruments::kVoltmeterOhm);
        solver.set_conducts(meter, false);
    }
    return volts;
}

}  // namespace halfsplit::diagnosis
