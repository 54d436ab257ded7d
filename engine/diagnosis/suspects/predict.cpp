#include "engine/diagnosis/suspects/predict.h"

#include <algorithm>
#include <array>
#include <limits>
#include <memory>
#include <mutex>
#include <optional>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/row_anew.h"
#include "engine/diagnosis/dictionary/row_as_it_stands.h"
#include "engine/diagnosis/dictionary/share_out.h"
#include "engine/diagnosis/dictionary/what_moves.h"

namespace halfsplit::diagnosis {
namespace {

/// Two: a user's machine has other things to do as well.
constexpr int kThreads = 2;

std::vector<network::Fault> faults_at(const Dictionary& dictionary, std::span<const int> indices) {
    std::vector<network::Fault> faults;
    for (const int index : indices) faults.push_back(dictionary.faults[at(index)].fault);
    return faults;
}

const model::OperatingState& operating_state(const model::Circuit& circuit, const Dictionary& dictionary,
                                             int state) {
    return *circuit.find_state(dictionary.states[at(state)]);
}

PredictedRow predicted_anew(const model::Circuit& circuit, const Dictionary& dictionary,
                            std::span<const int> faults, int state) {
    PredictedRow row{std::vector<float>(dictionary.findings.size()), {}};
    row.told = row_anew(circuit, operating_state(circuit, dictionary, state), faults_at(dictionary, faults),
                        dictionary.findings, dictionary.pulses[at(state)], row.values);
    return row;
}

class PairRows {
  public:
    PairRows(const model::Circuit& circuit, const Dictionary& dictionary)
        : circuit_(circuit), dictionary_(dictionary), states_(dictionary.states.size()) {}

    PredictedRow row(FaultPair pair, int state) {
        const std::array faults{pair.first, pair.second};
        const std::optional<Standing>& standing = known(state);
        if (!standing) return predicted_anew(circuit_, dictionary_, faults, state);
        PredictedRow row{std::vector<float>(dictionary_.findings.size()), {}};
        row.told = row_as_it_stands(circuit_, standing->base, faults_at(dictionary_, faults), Start::asleep,
                                    dictionary_.findings, row.values);
        if (row.told == Told::not_at_all)
            std::ranges::fill(row.values, std::numeric_limits<float>::quiet_NaN());
        standing->moves.forget_in(row.values);
        return row;
    }

  private:
    /// What the sound vehicle stands like.
    struct Standing {
        StateBase base;
        WhatMoves moves;
    };
    struct KnownState {
        std::once_flag is_known;
        std::optional<Standing> standing;
    };

    const std::optional<Standing>& known(int state) {
        KnownState& of = states_[at(state)];
        std::call_once(of.is_known, [&] {
            if (!dictionary_.puts_into_what_stands(state)) return;
            auto base =
                StateBase::of(circuit_, operating_state(circuit_, dictionary_, state), dictionary_.findings);
            if (base) of.standing = {std::move(*base), WhatMoves(circuit_, dictionary_, state)};
        });
        return of.standing;
    }

    const model::Circuit& circuit_;
    const Dictionary& dictionary_;
    std::vector<KnownState> states_;
};

}  // namespace

PredictAnew prediction_anew(const model::Circuit& circuit, const Dictionary& dictionary) {
    return [&circuit, &dictionary](std::span<const int> faults, std::span<const int> states) {
        std::vector<PredictedRow> rows(states.size());
        share_out(static_cast<int>(states.size()), kThreads, [&](int i, int) {
            rows[at(i)] = predicted_anew(circuit, dictionary, faults, states[at(i)]);
        });
        return rows;
    };
}

PredictPair pair_prediction(const model::Circuit& circuit, const Dictionary& dictionary) {
    return [rows = std::make_shared<PairRows>(circuit, dictionary)](FaultPair pair,
                                                                    std::span<const int> states) {
        std::vector<PredictedRow> predicted;
        for (const int state : states) predicted.push_back(rows->row(pair, state));
        return predicted;
    };
}

}  // namespace halfsplit::diagnosis
