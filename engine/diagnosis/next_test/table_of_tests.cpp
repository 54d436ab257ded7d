#include "engine/diagnosis/next_test/table_of_tests.h"

#include <algorithm>
#include <map>
#include <utility>

namespace halfsplit::diagnosis {

namespace {

/// Which outcome each of the rows asked about has.
std::vector<int> cells_of(const std::vector<Outcome>& outcomes, std::size_t count) {
    std::vector<int> cells(count, 0);
    for (std::size_t outcome = 0; outcome < outcomes.size(); ++outcome)
        for (const int member : outcomes[outcome].members) cells[at(member)] = static_cast<int>(outcome);
    return cells;
}

/// The same where the same rows are together, whatever the outcomes are.
std::vector<int> parting_of(const std::vector<int>& cells) {
    std::map<int, int> number;
    std::vector<int> parting;
    parting.reserve(cells.size());
    for (const int cell : cells)
        parting.push_back(number.try_emplace(cell, static_cast<int>(number.size())).first->second);
    return parting;
}

class TableBuilder {
  public:
    TableBuilder(const Hypotheses& hypotheses, const Workshop& workshop, const TestNames& names)
        : hypotheses_(hypotheses), workshop_(workshop), names_(names), bench_(fresh_bench(workshop)) {
        const Dictionary& dictionary = hypotheses.dictionary();
        for (int row = 0; row < dictionary.rows(); ++row) {
            if (row > 0 && !hypotheses.is_noticed(row)) continue;
            asked_.push_back(row);
            probability_.push_back(hypotheses.prior(row));
            table_.faults.push_back(
                {row == 0 ? "none" : dictionary.faults[at(row - 1)].fault.text, hypotheses.prior(row)});
        }
        plan::normalise(table_);
    }

    plan::FaultTable of(const Permitted& permitted) {
        for (const int state : permitted.states)
            for (const int finding : permitted.findings) look_at({state, finding});
        const std::vector<Kept> kept = take_cheapest();
        table_.cells.resize(asked_.size() * kept.size());
        for (std::size_t column = 0; column < kept.size(); ++column) add(kept[column], column, kept.size());
        return std::move(table_);
    }

  private:
    struct Kept {
        int number = 0;  ///< in the order of looking
        Test test;
        double minutes = 0;
    };

    std::vector<Outcome> outcomes_with(const Test& test) const {
        return outcomes_of(hypotheses_, asked_, probability_, test);
    }

    /// Of several that cost as much, the first is kept.
    void look_at(const Test& test) {
        const auto outcomes = outcomes_with(test);
        if (outcomes.size() < 2) return;
        const Finding::Kind kind = hypotheses_.dictionary().findings[at(test.finding)].kind;
        const Kept here{looked_at_++, test, test_minutes(workshop_, bench_, kind, test)};
        Kept& known =
            cheapest_.try_emplace(parting_of(cells_of(outcomes, asked_.size())), here).first->second;
        if (here.minutes < known.minutes) known = here;
    }

    /// In the order of looking. A whole vehicle has thousands of partings of thousands of faults: they go.
    std::vector<Kept> take_cheapest() {
        std::vector<Kept> kept;
        for (const auto& [parting, cheapest] : cheapest_) kept.push_back(cheapest);
        cheapest_.clear();
        std::ranges::sort(kept, {}, &Kept::number);
        return kept;
    }

    void add(const Kept& each, std::size_t column, std::size_t columns) {
        const auto outcomes = outcomes_with(each.test);
        plan::FaultTable::Test named{names_.test(each.test), each.minutes, {}};
        for (const Outcome& outcome : outcomes) {
            std::string name = names_.outcome(each.test, outcome);
            // What rounding has made equal is not the same outcome.
            if (std::ranges::find(named.outcomes, name) != named.outcomes.end())
                name += " (" + std::to_string(named.outcomes.size() + 1) + ")";
            named.outcomes.push_back(std::move(name));
        }
        table_.tests.push_back(std::move(named));
        const std::vector<int> cells = cells_of(outcomes, asked_.size());
        for (std::size_t row = 0; row < cells.size(); ++row)
            table_.cells[row * columns + column] = cells[row];
    }

    const Hypotheses& hypotheses_;
    const Workshop& workshop_;
    const TestNames& names_;
    Bench bench_;
    std::vector<int> asked_;
    std::vector<double> probability_;
    int looked_at_ = 0;
    std::map<std::vector<int>, Kept> cheapest_;  ///< by the parting
    plan::FaultTable table_;
};

}  // namespace

plan::FaultTable table_of_tests(const Hypotheses& hypotheses, const Workshop& workshop,
                                const Permitted& permitted, const TestNames& names) {
    return TableBuilder(hypotheses, workshop, names).of(permitted);
}

}  // namespace halfsplit::diagnosis
