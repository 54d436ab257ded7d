#pragma once

#include <vector>

namespace halfsplit::diagnosis {

// Several faults at once, from conflicts: a conflict is a set of components that cannot all be sound, given
// what was measured. A candidate is a set of faulty components that explains every conflict, so holds one of
// each (de Kleer & Williams, AIJ 32(1):97-130, 1987; Reiter, AIJ 32(1):57-95, 1987). Components are numbered
// from 0.

/// Numbers of components, rising.
using ComponentSet = std::vector<int>;

/// The minimal candidates: minimal hitting sets of the conflicts, of at most `max_size` components; smaller
/// ones first, then by number. No conflict leaves one candidate, the empty one; a conflict without components
/// leaves none. Exponential in `max_size`: meant for one to three faults at once, however many components
/// there are.
std::vector<ComponentSet> minimal_candidates(const std::vector<ComponentSet>& conflicts, int max_size);

/// Beliefs after the conflicts, where each component fails independently with its own prior.
struct CandidateBeliefs {
    double consistent = 0;          ///< prior probability of all candidates together, minimal or not
    std::vector<double> component;  ///< probability that each component is faulty
};

/// Sums over all candidates exactly, by deciding one component after the other. Throws std::invalid_argument
/// where a conflict names a component without a prior, or no candidate is possible.
CandidateBeliefs candidate_beliefs(const std::vector<ComponentSet>& conflicts,
                                   const std::vector<double>& priors);

/// Probability that exactly the components of `candidate` are faulty, given that the conflicts are explained.
double candidate_probability(const ComponentSet& candidate, const std::vector<double>& priors,
                             const CandidateBeliefs& beliefs);

}  // namespace halfsplit::diagnosis
