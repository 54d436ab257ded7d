#include "engine/diagnosis/next_test/consultation.h"

#include <utility>

#include "engine/diagnosis/dictionary/row_anew.h"

namespace halfsplit::diagnosis {

PredictPair predict_anew(const model::Circuit& circuit, const Dictionary& dictionary) {
    return [&circuit, &dictionary](FaultPair pair, std::span<const int> states) {
        const std::vector<network::Fault> faults{dictionary.faults[at(pair.first)].fault,
                                                 dictionary.faults[at(pair.second)].fault};
        std::vector<PredictedRow> rows;
        for (const int state : states) {
            PredictedRow row{std::vector<float>(dictionary.findings.size()), {}};
            row.told = row_anew(circuit, *circuit.find_state(dictionary.states[at(state)]), faults,
                                dictionary.findings, dictionary.pulses[at(state)], row.values);
            rows.push_back(std::move(row));
        }
        return rows;
    };
}

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
      hypotheses_(new_hypotheses()) {}

Hypotheses Consultation::new_hypotheses(PredictPair predict) const {
    if (!predict) predict = predict_anew(circuit_, dictionary_);
    return {dictionary_, spread_, assumptions_, std::move(predict)};
}

Advice Consultation::advise(const Evidence& evidence, const std::vector<int>& states) {
    Advice advice{evidence, fresh_bench(workshop_), rank(hypotheses_, evidence), {}};
    for (const Reading& reading : evidence.readings)
        go_to_test(workshop_, advice.bench, {reading.state, reading.finding});
    advice.choice =
        choose(hypotheses_, advice.ranking, evidence, workshop_, advice.bench, {states, permitted_.findings});
    return advice;
}

}  // namespace halfsplit::diagnosis
