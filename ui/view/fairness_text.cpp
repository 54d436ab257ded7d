#include "ui/view/fairness_text.h"

#include <algorithm>

#include "ui/view/finding_text.h"
#include "ui/view/suspect_rows.h"

namespace halfsplit::view {

using diagnosis::Choice;
using diagnosis::Diagnosis;

namespace {

constexpr std::size_t kMostInAStep = 3;

std::string named(const diagnosis::Hypotheses& all, const std::vector<int>& hypotheses) {
    std::string text;
    for (std::size_t i = 0; i < std::min(hypotheses.size(), kMostInAStep); ++i)
        text += (text.empty() ? "" : ", ") + hypothesis_text(all, hypotheses[i]);
    const std::size_t more = hypotheses.size() - std::min(hypotheses.size(), kMostInAStep);
    return more == 0 ? text : text + " and " + std::to_string(more) + " more";
}

std::string minutes_cell(double minutes) {
    const std::string text = fixed(minutes, 1);
    return std::string(text.size() < 5 ? 5 - text.size() : 0, ' ') + text + " min  ";
}

}  // namespace

Table fairness_table(const std::vector<CheckedScenario>& checked) {
    using Align = Table::Align;
    Table table{{{"level", Align::right},
                 {"scenario"},
                 {"circuit's suspects at first", Align::right},
                 {"tests", Align::right},
                 {"best strategy, min", Align::right},
                 {"budget, min", Align::right}},
                {}};
    std::vector<CheckedScenario> sorted = checked;
    std::ranges::stable_sort(sorted, [](const CheckedScenario& a, const CheckedScenario& b) {
        if (a.scenario->level != b.scenario->level) return a.scenario->level < b.scenario->level;
        return a.fairness->way.minutes() < b.fairness->way.minutes();
    });
    for (const CheckedScenario& each : sorted)
        table.rows.push_back({std::to_string(each.scenario->level), each.scenario->id,
                              std::to_string(each.fairness->suspects_at_first),
                              std::to_string(each.fairness->way.diagnosis.tests),
                              fixed(each.fairness->way.minutes(), 1), fixed(each.scenario->budget_min, 0)});
    return table;
}

std::string step_text(const practice::Expertise& expertise, const practice::BestWay& way,
                      const Diagnosis::Step& step) {
    const diagnosis::Dictionary& dictionary = expertise.consultation->dictionary();
    const model::Circuit& circuit = expertise.consultation->circuit();
    if (step.choice.kind == Choice::Kind::repair) {
        const bool is_sound = step.choice.group.front() == 0;
        const std::string what =
            is_sound ? "hand back: nothing is wrong" : "repair " + named(*way.hypotheses, step.choice.group);
        return minutes_cell(step.minutes) + what + (is_sound || step.was_broken ? "" : " (in vain)");
    }
    const diagnosis::Finding& finding =
        dictionary.findings[static_cast<std::size_t>(step.choice.test.finding)];
    return minutes_cell(step.minutes) + dictionary.states[static_cast<std::size_t>(step.choice.test.state)] +
           ": " + finding_text(circuit, finding) + ": " + reading_text(circuit, finding, step.value);
}

std::string best_way_text(const practice::Expertise& expertise, const practice::BestWay& way) {
    const model::Circuit& circuit = expertise.consultation->circuit();
    const diagnosis::Dictionary& dictionary = expertise.consultation->dictionary();
    std::string text;
    for (const Diagnosis::Step& step : way.diagnosis.steps) {
        text += "  " + step_text(expertise, way, step) + "\n";
        if (step.choice.kind != Choice::Kind::test) continue;
        const diagnosis::Finding& finding =
            dictionary.findings[static_cast<std::size_t>(step.choice.test.finding)];
        for (const Choice::Split& split : step.choice.splits)
            text += "               " + outcome_text(circuit, finding, split.low, split.high) + " would be " +
                    named(*way.hypotheses, split.hypotheses) + "\n";
    }
    return text;
}

}  // namespace halfsplit::view
