#include "engine/diagnosis/next_test/consultation.h"

#include <utility>

#include "engine/diagnosis/next_test/think_ahead.h"
#include "engine/diagnosis/suspects/predict.h"

namespace halfsplit::diagnosis {

tl::expected<std::unique_ptr<Consultation>, Diagnostics> Consultation::on(const model::Circuit& circuit,
                                                                          Dictionary dictionary,
                                                                          const Assumptions& assumptions) {
    auto spread = spread_of(circuit, dictionary, assumptions);
    if (!spread) return tl::unexpected(spread.error());
    return std::unique_ptr<Consultation>(
        new Consultation(circuit, std::move(dictionary), std::move(*spread), assumptions));
}

Consultation::Consultation(const model::Circuit& circuit, Dictionary dictionary, Spread spread,
                           const Assumptions& assumptions)
    : circuit_(circuit),
      dictionary_(std::move(dictionary)),
      spread_(std::move(spread)),
      assumptions_(assumptions),
      workshop_(workshop_for(circuit, dictionary_)),
      permitted_(measurable(circuit, dictionary_)),
      predict_pairs_(pair_prediction(circuit, dictionary_)),
      predict_anew_(prediction_anew(circuit, dictionary_)),
      hypotheses_(new_hypotheses()) {}

Hypotheses Consultation::new_hypotheses(const Predict& pairs, const Predict& anew) const {
    return {dictionary_, spread_, assumptions_, pairs ? pairs : predict_pairs_, anew ? anew : predict_anew_};
}

Advice Consultation::advise(const Evidence& evidence, const std::vector<int>& states, Patience patience) {
    Bench bench = fresh_bench(workshop_);
    for (const Reading& reading : evidence.readings)
        go_to_test(workshop_, bench, {reading.state, reading.finding});
    Decision decision =
        decide(hypotheses_, evidence, workshop_, bench, {states, permitted_.findings}, patience);
    return {evidence, std::move(bench), std::move(decision.ranking), std::move(decision.choice)};
}

bool Consultation::think_ahead(const Advice& advice) {
    return diagnosis::think_ahead(hypotheses_, advice.ranking, advice.choice, advice.evidence);
}

}  // namespace halfsplit::diagnosis
