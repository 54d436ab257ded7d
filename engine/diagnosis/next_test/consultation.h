#pragma once

#include <memory>
#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/diagnosis/next_test/decide.h"
#include "engine/diagnosis/suspects/groups.h"
#include "engine/diagnosis/suspects/reasons.h"
#include "engine/diagnosis/suspects/spread.h"
#include "engine/model/circuit.h"

namespace halfsplit::diagnosis {

/// What is known after some readings, and what to do then.
struct Advice {
    Evidence evidence;
    Bench bench;
    Ranking ranking;
    Choice choice;
};

/// Everything that diagnosing vehicles of one circuit takes, worked out once. Borrows the circuit.
class Consultation {
  public:
    /// Errors: a state of the dictionary that the circuit does not come to.
    static tl::expected<std::unique_ptr<Consultation>, Diagnostics> on(const model::Circuit& circuit,
                                                                       Dictionary dictionary,
                                                                       const Assumptions& assumptions = {});
    Consultation(const Consultation&) = delete;
    Consultation& operator=(const Consultation&) = delete;
    ~Consultation() = default;

    /// After these readings, in the order they were taken: places they were taken at are open, and the
    /// vehicle stands in the last one's state. Next tests come from the dictionary's states in `states`
    /// (indices, rising).
    Advice advise(const Evidence& evidence, const std::vector<int>& states, Patience patience);
    /// See think_ahead.h.
    bool think_ahead(const Advice& advice);

    const model::Circuit& circuit() const { return circuit_; }
    const Dictionary& dictionary() const { return dictionary_; }
    const Workshop& workshop() const { return workshop_; }
    const Permitted& permitted() const { return permitted_; }
    const Hypotheses& hypotheses() const { return hypotheses_; }

    /// Fresh, for another vehicle: hypotheses grow by the pairs that come under suspicion. Predicted by
    /// other functions than predict_pairs() and predict_anew() where such are given.
    Hypotheses new_hypotheses(const Predict& pairs = {}, const Predict& anew = {}) const;
    const Predict& predict_pairs() const { return predict_pairs_; }
    const Predict& predict_anew() const { return predict_anew_; }

  private:
    Consultation(const model::Circuit& circuit, Dictionary dictionary, Spread spread,
                 const Assumptions& assumptions);

    const model::Circuit& circuit_;
    Dictionary dictionary_;
    Spread spread_;
    Assumptions assumptions_;
    Workshop workshop_;
    Permitted permitted_;
    Predict predict_pairs_;
    Predict predict_anew_;
    Hypotheses hypotheses_;
};

}  // namespace halfsplit::diagnosis
