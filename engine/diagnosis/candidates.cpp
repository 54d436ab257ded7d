#include "engine/diagnosis/candidates.h"

#include <algorithm>
#include <map>
#include <set>
#include <stdexcept>

#include "engine/base/index.h"

namespace halfsplit::diagnosis {
namespace {

bool holds_one_of(const ComponentSet& set, const ComponentSet& conflict) {
    return std::ranges::any_of(conflict, [&](int each) { return std::ranges::binary_search(set, each); });
}

ComponentSet with(const ComponentSet& set, int component) {
    ComponentSet larger = set;
    larger.insert(std::ranges::upper_bound(larger, component), component);
    return larger;
}

bool includes_one_of(const ComponentSet& set, const std::vector<ComponentSet>& smaller) {
    return std::ranges::any_of(smaller,
                               [&](const ComponentSet& each) { return std::ranges::includes(set, each); });
}

/// Conflicts that are left once a component was found faulty: those that do not name it.
std::vector<ComponentSet> left_if_faulty(const std::vector<ComponentSet>& conflicts, int component) {
    std::vector<ComponentSet> left;
    std::ranges::copy_if(conflicts, std::back_inserter(left), [component](const ComponentSet& conflict) {
        return std::ranges::find(conflict, component) == conflict.end();
    });
    return left;
}

/// And once it was found sound: all, none of which names it.
std::vector<ComponentSet> left_if_sound(std::vector<ComponentSet> conflicts, int component) {
    for (ComponentSet& conflict : conflicts) std::erase(conflict, component);
    return conflicts;
}

/// The component that most conflicts name: deciding it leaves the fewest.
int most_named(const std::vector<ComponentSet>& conflicts) {
    std::map<int, int> counts;
    for (const ComponentSet& conflict : conflicts)
        for (const int each : conflict) ++counts[each];
    return std::ranges::max_element(counts, {}, [](const auto& entry) { return entry.second; })->first;
}

/// Probability that independent faults explain all conflicts.
double explained(const std::vector<ComponentSet>& conflicts, const std::vector<double>& priors) {
    if (conflicts.empty()) return 1;
    if (std::ranges::any_of(conflicts, &ComponentSet::empty)) return 0;
    const int component = most_named(conflicts);
    const double prior = priors[at(component)];
    return prior * explained(left_if_faulty(conflicts, component), priors) +
           (1 - prior) * explained(left_if_sound(conflicts, component), priors);
}

void check(const std::vector<ComponentSet>& conflicts, const std::vector<double>& priors) {
    for (const double prior : priors)
        if (!(prior >= 0 && prior <= 1)) throw std::invalid_argument("a prior is no probability");
    for (const ComponentSet& conflict : conflicts)
        for (const int each : conflict)
            if (each < 0 || at(each) >= priors.size())
                throw std::invalid_argument("a conflict names a component without a prior");
}

}  // namespace

std::vector<ComponentSet> minimal_candidates(const std::vector<ComponentSet>& conflicts, int max_size) {
    std::vector<ComponentSet> found;
    std::set<ComponentSet> open{{}};
    for (int size = 0; size <= max_size && !open.empty(); ++size) {
        std::vector<ComponentSet> found_now;
        std::set<ComponentSet> next;
        for (const ComponentSet& set : open) {
            if (includes_one_of(set, found)) continue;
            const auto missed = std::ranges::find_if(
                conflicts, [&set](const ComponentSet& conflict) { return !holds_one_of(set, conflict); });
            if (missed == conflicts.end())
                found_now.push_back(set);
            else
                for (const int each : *missed) next.insert(with(set, each));
        }
        found.insert(found.end(), found_now.begin(), found_now.end());
        open = std::move(next);
    }
    return found;
}

CandidateBeliefs candidate_beliefs(const std::vector<ComponentSet>& conflicts,
                                   const std::vector<double>& priors) {
    check(conflicts, priors);
    CandidateBeliefs beliefs;
    beliefs.consistent = explained(conflicts, priors);
    if (beliefs.consistent <= 0) throw std::invalid_argument("no candidate explains the conflicts");
    for (int component = 0; component < static_cast<int>(priors.size()); ++component)
        beliefs.component.push_back(priors[at(component)] *
                                    explained(left_if_faulty(conflicts, component), priors) /
                                    beliefs.consistent);
    return beliefs;
}

double candidate_probability(const ComponentSet& candidate, const std::vector<double>& priors,
                             const CandidateBeliefs& beliefs) {
    double probability = 1;
    for (int component = 0; component < static_cast<int>(priors.size()); ++component) {
        const double prior = priors[at(component)];
        probability *= std::ranges::binary_search(candidate, component) ? prior : 1 - prior;
    }
    return probability / beliefs.consistent;
}

}  // namespace halfsplit::diagnosis
