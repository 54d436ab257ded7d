#pragma once

#include <memory>
#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/diagnosis/next_test/consultation.h"
#include "engine/practice/scenario/scenario.h"

namespace halfsplit::practice {

/// What somebody knows who knows all that can be wrong with a circuit, and what a scenario hides in it.
struct Expertise {
    std::shared_ptr<const diagnosis::Consultation> consultation;
    std::vector<int> hidden;         ///< the scenario's faults, as indices into the dictionary's
    diagnosis::Evidence complaint;   ///< what the complaint comes to
    diagnosis::Permitted permitted;  ///< what the scenario's instruments can read
};

/// `dictionary` is of all the circuit can have, in all states the scenario speaks of; a hidden fault of
/// another value than it assumes takes that one's place. Borrows the circuit. Errors: a hidden fault the
/// circuit cannot have, a state that is not among the dictionary's.
tl::expected<Expertise, Diagnostics> expertise_for(const Scenario& scenario, const model::Circuit& circuit,
                                                   diagnosis::Dictionary dictionary);

/// The same with a consultation that is there already, for hidden faults of the values it assumes.
tl::expected<Expertise, Diagnostics> expertise_with(
    const Scenario& scenario, const model::Circuit& circuit,
    std::shared_ptr<const diagnosis::Consultation> consultation);

/// What would be found with all hidden faults but those mended, in one state of the dictionary: one value per
/// finding, NaN where the vehicle comes to nothing.
std::vector<float> findings_with(const Expertise& expertise, const std::vector<int>& faults, int state);

}  // namespace halfsplit::practice
