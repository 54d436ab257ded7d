#include "engine/instruments/live_bench.h"

#include <utility>

#include "engine/base/index.h"

namespace halfsplit::instruments {

LiveBench::LiveBench(const model::Circuit& circuit, simulation::Course course)
    : circuit_(&circuit), course_(std::move(course)) {}

tl::expected<LiveBench, Diagnostics> LiveBench::begin(const model::Circuit& circuit, int state,
                                                      const network::Situation& situation) {
    const std::span<const model::StateStep> steps =
        state < 0 ? std::span<const model::StateStep>() : circuit.states[at(state)].steps;
    const auto settled = simulation::settle(circuit, situation, steps);
    if (!settled) return tl::unexpected(settled.error());
    auto course = simulation::Course::begin(circuit, *settled, {});
    if (!course) return tl::unexpected(course.error());
    course->count_from_now();
    return LiveBench(circuit, std::move(*course));
}

tl::expected<void, Diagnostics> LiveBench::advance(double seconds) {
    return course_.run_until(course_.now_s() + seconds);
}

tl::expected<void, Diagnostics> LiveBench::set(const std::string& what, const std::string& to) {
    return course_.set(what, to);
}

tl::expected<void, Diagnostics> LiveBench::change(const network::Situation& situation) {
    return course_.change(situation);
}

double LiveBench::potential_v(std::string_view point) const {
    return course_.potential_v(course_.network().point_nodes.find(point)->second);
}

double LiveBench::current_a(std::string_view name) const {
    double sum_a = 0;
    const auto& branches = course_.network().branches;
    for (std::size_t i = 0; i < branches.size(); ++i)
        if (branches[i].name == name) sum_a += course_.current_a(static_cast<int>(i));
    return sum_a;
}

network::Solution LiveBench::solution() const {
    network::Solution now;
    const network::Network& network = course_.network();
    now.potential_v.reserve(at(network.node_count));
    for (int node = 0; node < network.node_count; ++node)
        now.potential_v.push_back(course_.potential_v(node));
    now.current_a.reserve(network.branches.size());
    for (int branch = 0; branch < static_cast<int>(network.branches.size()); ++branch)
        now.current_a.push_back(course_.current_a(branch));
    return now;
}

Measured LiveBench::read(std::string_view instrument_id, const Leads& leads) const {
    const auto settled = course_.settled_as_it_stands();
    if (!settled) return tl::unexpected(settled.error());
    return measure({*circuit_, *settled}, instrument_id, leads);
}

}  // namespace halfsplit::instruments
