#pragma once

#include <array>
#include <functional>
#include <map>
#include <span>
#include <utility>
#include <vector>

#include "engine/diagnosis/dictionary/dictionary.h"
#include "engine/diagnosis/suspects/expectation.h"
#include "engine/diagnosis/suspects/spread.h"

namespace halfsplit::diagnosis {

/// What would be found with some faults in one state.
struct PredictedRow {
    std::vector<float> values;  ///< one per finding, NaN where told not at all
    Told told = Told::exactly;
};

/// Indices into Dictionary::faults, the smaller first.
using FaultPair = std::pair<int, int>;

/// Faults that are there together, indices into Dictionary::faults, in one of its states.
struct FaultsInState {
    std::vector<int> faults;
    int state = 0;
};

/// What each of these leads to, a row for each.
using Predict = std::function<std::vector<PredictedRow>(std::span<const FaultsInState>)>;

/// All that may be the matter with a vehicle, and what each leads one to find: hypothesis 0 is the sound
/// vehicle, the dictionary's other rows follow, then pairs of faults as they come under suspicion. Borrows
/// the dictionary and the spread.
class Hypotheses {
  public:
    /// Throws std::invalid_argument where dictionary and spread differ in shape. Without `pairs` there are
    /// none; without `anew`, what was put into what stands stays as it is.
    Hypotheses(const Dictionary& dictionary, const Spread& spread, const Assumptions& assumptions,
               Predict pairs = {}, Predict anew = {});
    Hypotheses(const Dictionary& dictionary, Spread&& spread, const Assumptions& assumptions,
               Predict pairs = {}, Predict anew = {}) = delete;

    const Dictionary& dictionary() const { return dictionary_; }
    const Assumptions& assumptions() const { return assumptions_; }
    int count() const { return dictionary_.rows() + static_cast<int>(pairs_.size()); }
    bool is_pair(int hypothesis) const { return hypothesis >= dictionary_.rows(); }
    bool predicts_pairs() const { return static_cast<bool>(predict_pairs_); }

    /// Indices into Dictionary::faults: none of the sound vehicle, one, or two.
    std::vector<int> faults_of(int hypothesis) const;

    /// Relative to the others, before any reading; the sound vehicle has its share.
    double prior(int hypothesis) const;

    /// Whether anything that can be read at all, by itself, tells it from the sound vehicle. Nobody complains
    /// about what is not noticed.
    bool is_noticed(int hypothesis) const { return is_pair(hypothesis) || noticed_[at(hypothesis)] != 0; }

    /// The pair's hypothesis, a new one where it has none yet; one that was set aside is under suspicion
    /// again.
    int add_pair(FaultPair pair);
    /// -1 where it never was under suspicion.
    int find_pair(FaultPair pair) const;
    /// It is out of the question, its prior 0, and nothing more is worked out for it.
    void set_aside(int pair);
    bool is_set_aside(int hypothesis) const {
        return is_pair(hypothesis) && pairs_[at(hypothesis - dictionary_.rows())].is_aside;
    }

    /// Has what all pairs lead to in these states worked out, which may take long; but of those set aside.
    void predict_pairs(std::span<const int> states);

    /// Of these states those that it is told as it stands in, and that settle() can do something about.
    std::vector<int> unsettled_in(int hypothesis, std::span<const int> states) const;
    /// What is told of a hypothesis in a state.
    struct Row {
        int hypothesis = 0;
        int state = 0;
    };
    /// Has these settled anew, which takes some tenths of a second for each of a whole vehicle.
    void settle(std::span<const Row> rows);

    /// One value per finding; NaN where that was not worked out for a pair.
    std::span<const float> values(int hypothesis, int state) const;
    Told told_of(int hypothesis, int state) const;
    /// How cautiously all is weighed in a state: as the least certain row of the dictionary there. A
    /// hypothesis that was looked at more closely than others must not gain by that alone.
    Told weighed_as(int state) const { return weighed_as_[at(state)]; }
    /// Valid as long as this is.
    Expecting expecting(int state, int finding) const {
        return {dictionary_.findings[at(finding)], dictionary_.value(state, 0, finding),
                spread_.of(state, finding), assumptions_};
    }
    Expectation expectation(int hypothesis, int state, int finding) const {
        return expecting(state, finding)(values(hypothesis, state)[at(finding)], weighed_as(state));
    }

    /// One per finding, see Expecting::least_apart().
    std::span<const float> least_apart(int state) const {
        return std::span(least_apart_)
            .subspan(at(state) * dictionary_.findings.size(), dictionary_.findings.size());
    }

    /// How wide nonsense of this kind scatters, V or A: over all that the dictionary holds.
    double range(Finding::Kind kind) const { return ranges_[static_cast<std::size_t>(kind)]; }

  private:
    struct Pair {
        FaultPair faults;
        std::map<int, PredictedRow> rows;  ///< by state
        bool is_aside = false;
    };
    bool differs_from_sound(int row) const;
    std::vector<PredictedRow> predicted(const Predict& predict,
                                        const std::vector<FaultsInState>& wanted) const;
    Pair& pair_of(int hypothesis) { return pairs_[at(hypothesis - dictionary_.rows())]; }
    const PredictedRow& row_of_pair(int hypothesis, int state) const;
    int& settled_of(int row, int state) { return settled_of_[at(state) * at(dictionary_.rows()) + at(row)]; }
    int settled_of(int row, int state) const {
        return settled_of_[at(state) * at(dictionary_.rows()) + at(row)];
    }

    const Dictionary& dictionary_;
    const Spread& spread_;
    Assumptions assumptions_;
    Predict predict_pairs_;
    Predict anew_;
    std::array<double, 3> ranges_{1, 1, 1};
    std::vector<Told> weighed_as_;    ///< one per state
    std::vector<float> least_apart_;  ///< states.size() lists of findings
    std::vector<char> noticed_;       ///< one per row of the dictionary
    std::vector<double> priors_;      ///< one per row of the dictionary
    std::vector<Pair> pairs_;
    std::map<FaultPair, int> known_pairs_;
    PredictedRow unknown_;         ///< what was not worked out
    std::vector<int> settled_of_;  ///< into settled_, as Dictionary::told; -1: the dictionary's row stands
    std::vector<PredictedRow> settled_;
};

}  // namespace halfsplit::diagnosis
