#include "engine/diagnosis/suspects/predict.h"

#include <algorithm>
#include <limits>
#include <map>
#include <memory>
#include <mutex>
#include <optional>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/row_anew.h"
#include "engine/diagnosis/dictionary/row_as_it_stands.h"
#include "engine/diagnosis/dictionary/share_out.h"
#include "engine/diagnosis/dictionary/trial.h"
#include "engine/diagnosis/dictionary/what_moves.h"

namespace halfsplit::diagnosis {
namespace {

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
                            const FaultsInState& wanted) {
    PredictedRow row{std::vector<float>(dictionary.findings.size()), {}};
    row.told = row_anew(circuit, operating_state(circuit, dictionary, wanted.state),
                        faults_at(dictionary, wanted.faults), dictionary.findings,
                        dictionary.pulses[at(wanted.state)], row.values);
    return row;
}

class PairRows {
  public:
    PairRows(const model::Circuit& circuit, const Dictionary& dictionary)
        : circuit_(circuit), dictionary_(dictionary), states_(dictionary.states.size()) {}

    std::vector<PredictedRow> rows(std::span<const FaultsInState> wanted) {
        // A state's pairs are put into it one after the other.
        std::map<int, std::vector<int>> put_into_state;
        for (int i = 0; i < static_cast<int>(wanted.size()); ++i)
            put_into_state[wanted[at(i)].state].push_back(i);
        std::vector<std::vector<int>> jobs;
        jobs.reserve(put_into_state.size());
        for (auto& [state, numbers] : put_into_state) jobs.push_back(std::move(numbers));
        std::vector<PredictedRow> rows(wanted.size());
        share_out(static_cast<int>(jobs.size()), kThreadsBetweenReadings, [&](int job, int) {
            const std::vector<int>& numbers = jobs[at(job)];
            const std::optional<Standing>& standing = known(wanted[at(numbers.front())].state);
            if (standing) return put_into(*standing, wanted, numbers, rows);
            for (const int i : numbers) rows[at(i)] = predicted_anew(circuit_, dictionary_, wanted[at(i)]);
        });
        return rows;
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
            auto base =
                StateBase::of(circuit_, operating_state(circuit_, dictionary_, state), dictionary_.findings);
            if (base) of.standing = {std::move(*base), WhatMoves(circuit_, dictionary_, state)};
        });
        return of.standing;
    }

    void put_into(const Standing& standing, std::span<const FaultsInState> wanted,
                  const std::vector<int>& numbers, std::vector<PredictedRow>& rows) const {
        std::vector<PossibleFault> faults;
        for (const int i : numbers)
            for (const int fault : wanted[at(i)].faults) faults.push_back(dictionary_.faults[at(fault)]);
        const auto changes = changes_of(circuit_, standing.base, faults, 1);
        std::vector<StagedChange> both;
        StagedLeaks leaks(standing.base.stages.size());
        for (std::size_t i = 0; i < changes.size(); i += 2) {
            both.push_back(together(changes[i], changes[i + 1]));
            if (both.back()) add_leaks(*both.back(), leaks);
        }
        Trial trial(circuit_, standing.base, leaks);
        for (std::size_t i = 0; i < numbers.size(); ++i) {
            PredictedRow& row = rows[at(numbers[i])];
            row.values.resize(dictionary_.findings.size());
            row.told = put_into(standing, wanted[at(numbers[i])], both[i], trial, row.values);
            if (row.told == Told::not_at_all)
                std::ranges::fill(row.values, std::numeric_limits<float>::quiet_NaN());
            if (row.told == Told::as_it_stands) standing.moves.forget_in(row.values);
        }
    }

    Told put_into(const Standing& standing, const FaultsInState& wanted, const StagedChange& change,
                  Trial& trial, std::span<float> values) const {
        if (change) {
            const auto result = trial.read(&*change, values);
            if (result == Trial::Result::no_rest) return Told::not_at_all;
            if (result == Trial::Result::read)
                return standing.base.lives ? Told::as_it_stands : Told::exactly;
        }
        if (!standing.base.lives) {
            PredictedRow row = predicted_anew(circuit_, dictionary_, wanted);
            std::ranges::copy(row.values, values.begin());
            return row.told;
        }
        return row_as_it_stands(circuit_, standing.base, faults_at(dictionary_, wanted.faults), Start::asleep,
                                dictionary_.findings, values);
    }

    const model::Circuit& circuit_;
    const Dictionary& dictionary_;
    std::vector<KnownState> states_;
};

}  // namespace

Predict prediction_anew(const model::Circuit& circuit, const Dictionary& dictionary) {
    return [&circuit, &dictionary](std::span<const FaultsInState> wanted) {
        std::vector<PredictedRow> rows(wanted.size());
        share_out(static_cast<int>(wanted.size()), kThreadsBetweenReadings,
                  [&](int i, int) { rows[at(i)] = predicted_anew(circuit, dictionary, wanted[at(i)]); });
        return rows;
    };
}

Predict pair_prediction(const model::Circuit& circuit, const Dictionary& dictionary) {
    return [rows = std::make_shared<PairRows>(circuit, dictionary)](std::span<const FaultsInState> wanted) {
        return rows->rows(wanted);
    };
}

}  // namespace halfsplit::diagnosis
