#include <algorithm>

#include "engine/model/chart/draft.h"

namespace halfsplit::model::chart {
namespace {

bool holds_all(const Chart& chart, int ancestor, const std::vector<int>& states) {
    return std::all_of(states.begin(), states.end(),
                       [&](int state) { return chart.is_descendant(state, ancestor); });
}

int innermost_common(const Chart& chart, int a, int b) {
    int ancestor = a;
    while (ancestor != b && !chart.is_descendant(b, ancestor)) ancestor = chart.state(ancestor).parent;
    return ancestor;
}

}  // namespace

int transition_domain(const Chart& chart, const Transition& transition, bool internal) {
    if (transition.targets.empty()) return -1;
    const int source = transition.source;
    if (internal && chart.state(source).kind == StateKind::compound &&
        holds_all(chart, source, transition.targets))
        return source;
    int domain = chart.state(source).parent;
    while (chart.state(domain).kind == StateKind::parallel || !holds_all(chart, domain, transition.targets))
        domain = chart.state(domain).parent;
    return domain;
}

std::optional<std::string> targets_problem(const Chart& chart, const std::vector<int>& targets) {
    for (std::size_t i = 0; i < targets.size(); ++i)
        for (std::size_t j = i + 1; j < targets.size(); ++j) {
            const int common = innermost_common(chart, targets[i], targets[j]);
            if (common != targets[i] && common != targets[j] &&
                chart.state(common).kind == StateKind::parallel)
                continue;
            return chart.state(targets[i]).id + " and " + chart.state(targets[j]).id +
                   " cannot be entered together; states in different regions of a <parallel> are expected";
        }
    return std::nullopt;
}

}  // namespace halfsplit::model::chart
