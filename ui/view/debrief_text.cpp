#include "ui/view/debrief_text.h"

#include <algorithm>

#include "engine/base/index.h"
#include "engine/diagnosis/suspects/reasons.h"
#include "ui/view/fairness_text.h"
#include "ui/view/finding_text.h"
#include "ui/view/session_text.h"
#include "ui/view/suspect_rows.h"

namespace halfsplit::view {

using practice::Debrief;
using practice::Expertise;
using practice::Session;
using practice::StepInHindsight;
using practice::Verdict;

namespace {

std::string answer_in_a_line(const practice::Entry& entry) {
    std::string text;
    for (const practice::Observed& each : entry.observed) {
        const bool is_reading = entry.action.verb == practice::Verb::measure;
        text += (text.empty() ? "" : "; ") +
                (is_reading ? each.shown : observed_sentence(entry, each, each.about));
    }
    return text;
}

/// The likeliest of a group that no reading tells apart.
std::string some_suspects(const diagnosis::Hypotheses& hypotheses, const std::vector<int>& group) {
    constexpr std::size_t kMost = 3;
    std::string text;
    for (std::size_t i = 0; i < std::min(group.size(), kMost); ++i)
        text += (i == 0 ? "" : ", ") + hypothesis_text(hypotheses, group[i]);
    return group.size() > kMost ? text + " and their like" : text;
}

std::string alternative_text(const Expertise& expertise, const diagnosis::Hypotheses& hypotheses,
                             const practice::Alternative& alternative) {
    const diagnosis::Consultation& consultation = *expertise.consultation;
    const diagnosis::Choice& choice = alternative.choice;
    if (choice.kind == diagnosis::Choice::Kind::repair)
        return choice.group.front() == 0
                   ? "it was clear by now that nothing is wrong"
                   : "it was time to look for " + some_suspects(hypotheses, choice.group);
    const diagnosis::Dictionary& dictionary = consultation.dictionary();
    return "better: in state " + dictionary.states[at(choice.test.state)] + " " +
           finding_text(consultation.circuit(), dictionary.findings[at(choice.test.finding)]);
}

std::string remark_on(const practice::Entry& entry, const StepInHindsight& step, const Expertise& expertise,
                      const diagnosis::Hypotheses& hypotheses) {
    std::string remark;
    const auto add = [&](const std::string& text) { remark += (remark.empty() ? "" : "; ") + text; };
    if (step.could_tell_nothing) add("could rule nothing out");
    if (step.better) add(alternative_text(expertise, hypotheses, *step.better));
    for (const practice::Slip& slip : entry.slips) add("caution: " + slip.what);
    return remark;
}

std::string with_commas_and(const std::vector<std::string>& texts) {
    std::string all;
    for (std::size_t i = 0; i < texts.size(); ++i)
        all += (i == 0 ? "" : i + 1 == texts.size() ? " and " : ", ") + texts[i];
    return all;
}

std::string places_text(const model::Circuit& circuit, const network::Fault& fault) {
    std::string text;
    for (const int place : diagnosis::concern_of(circuit, fault).places)
        text += (text.empty() ? "" : "; ") + circuit.places[at(place)].title;
    return text;
}

std::string slips_text(const Session& session) {
    std::string text;
    for (const practice::Entry& entry : session.entries())
        for (const practice::Slip& slip : entry.slips)
            text += wrapped("Step " + std::to_string(entry.number) + ": " + slip.what + ". " + slip.why + ".",
                            kTextWidth, "  ");
    return text.empty() ? "" : "Cautions not heeded\n" + text + "\n";
}

/// The step, what came of it and how many suspects that left, and below what there is to say about it.
std::string step_lines(const DebriefRow& row) {
    std::string text = wrapped(row.clock + "  " + row.action + (row.answer.empty() ? "" : ": " + row.answer) +
                                   (row.left.empty() ? "" : " [" + row.left + " left]"),
                               kTextWidth, "  ");
    if (!row.remark.empty()) text += wrapped(row.remark, kTextWidth, "            ");
    return text;
}

std::string counted(int count, const std::string& one, const std::string& more) {
    return std::to_string(count) + " " + (count == 1 ? one : more);
}

}  // namespace

std::vector<DebriefRow> debrief_rows(const Session& session, const Expertise& expertise,
                                     const Debrief& debrief) {
    std::vector<DebriefRow> rows;
    for (const StepInHindsight& step : debrief.hindsight.steps) {
        const practice::Entry& entry = session.entries()[at(step.entry)];
        rows.push_back({clock_text(entry.clock_min), practice::action_text(entry.action),
                        answer_in_a_line(entry), step.was_in_order ? "" : std::to_string(step.suspects()),
                        remark_on(entry, step, expertise, *debrief.hindsight.hypotheses)});
    }
    return rows;
}

std::string verdict_sentence(const Session& session, const Verdict& verdict) {
    if (!verdict.is_over) return "The vehicle has not been handed back yet.";
    std::string text;
    if (verdict.is_right)
        text = session.scenario().faults.empty()
                   ? "Right: nothing was wrong with it, and nothing was replaced."
                   : "Right: the vehicle is in order.";
    else if (!verdict.still_wrong.empty())
        text = "Not in order: the vehicle still has " + with_commas_and(verdict.still_wrong) + ".";
    else if (!verdict.left_apart.empty())
        text = "Not finished: " + with_commas_and(verdict.left_apart) + ".";
    else
        text = "Nothing was wrong with it, and yet something was replaced.";
    if (!verdict.for_nothing.empty())
        text += " Replaced or mended for nothing: " + with_commas_and(verdict.for_nothing) + ".";
    return text;
}

std::vector<std::string> verdict_figures(const Verdict& verdict) {
    return {clock_text(verdict.minutes) + "; the best strategy takes " + clock_text(verdict.best_min) +
                ", the customer pays for " + clock_text(verdict.budget_min) + ".",
            "Looked or measured " + counted(verdict.questions, "time", "times") + ", took " +
                counted(verdict.hints, "hint", "hints") + ", did not heed " +
                counted(verdict.slips, "caution", "cautions") + "."};
}

std::vector<std::string> hidden_lines(const practice::Scenario& scenario, const model::Circuit& circuit) {
    std::vector<std::string> lines;
    for (const network::Fault& fault : scenario.faults) {
        const std::string places = places_text(circuit, fault);
        lines.push_back(fault.text + (places.empty() ? "" : " (" + places + ")") + ". " +
                        std::string(fault.spec->text));
    }
    if (lines.empty()) lines.emplace_back("Nothing was wrong.");
    return lines;
}

std::string debrief_text(const Session& session, const Expertise& expertise, const Debrief& debrief) {
    const Verdict& verdict = debrief.verdict;
    std::string text = "Verdict\n" + wrapped(verdict_sentence(session, verdict), kTextWidth, "  ");
    for (const std::string& line : verdict_figures(verdict)) text += "  " + line + "\n";
    if (!verdict.is_over) return text;
    text += "\nWhat it was\n";
    for (const std::string& line : hidden_lines(session.scenario(), session.circuit()))
        text += wrapped(line, kTextWidth, "  ");
    if (!session.scenario().lesson.empty()) text += wrapped(session.scenario().lesson, kTextWidth, "  ");
    if (!debrief.physics.cause.empty())
        text += "\nWhy it read as it did\n" +
                wrapped(debrief.physics.cause + " " + debrief.physics.reading, kTextWidth, "  ");
    text += "\nStep by step (the complaint leaves " + std::to_string(debrief.hindsight.suspects_at_first) +
            " suspects)\n";
    for (const DebriefRow& row : debrief_rows(session, expertise, debrief)) text += step_lines(row);
    text += "\n";
    text += slips_text(session);
    text += "The best strategy\n";
    for (const diagnosis::Diagnosis::Step& step : debrief.best.diagnosis.steps)
        text += "  " + step_text(expertise, debrief.best, step) + "\n";
    return text;
}

}  // namespace halfsplit::view
