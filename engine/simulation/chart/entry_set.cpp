#include "engine/simulation/chart/entry_set.h"

namespace halfsplit::simulation {
namespace {

using model::chart::Chart;
using model::chart::State;
using model::chart::StateKind;

void add_descendants(const Chart& chart, int index, EntrySet& set);

/// Regions in which nothing is to be entered yet.
void add_other_regions(const Chart& chart, const State& parallel, EntrySet& set) {
    for (const int region : parallel.children) {
        const auto inside = set.states.upper_bound(region);
        if (inside == set.states.end() || *inside > chart.state(region).last)
            add_descendants(chart, region, set);
    }
}

void add_ancestors(const Chart& chart, int index, int domain, EntrySet& set) {
    for (int ancestor = chart.state(index).parent; ancestor != domain;
         ancestor = chart.state(ancestor).parent) {
        set.states.insert(ancestor);
        if (chart.state(ancestor).kind == StateKind::parallel)
            add_other_regions(chart, chart.state(ancestor), set);
    }
}

/// Recurses as deep as states nest, which the reader limits.
void add_descendants(const Chart& chart, int index, EntrySet& set) {
    const State& state = chart.state(index);
    set.states.insert(index);
    if (state.kind == StateKind::parallel) add_other_regions(chart, state, set);
    if (state.kind != StateKind::compound) return;
    set.by_default.insert(index);
    add_entries(chart, state.initial, index, set);
}

}  // namespace

void add_entries(const Chart& chart, const std::vector<int>& targets, int domain, EntrySet& set) {
    for (const int target : targets) add_descendants(chart, target, set);
    for (const int target : targets) add_ancestors(chart, target, domain, set);
}

}  // namespace halfsplit::simulation
