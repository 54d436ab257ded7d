#include "ui/window/diagnose/conclusion.h"

#include <algorithm>
#include <numeric>

#include "engine/base/index.h"
#include "ui/view/advice_text.h"
#include "ui/view/suspect_rows.h"

namespace halfsplit::window {

using diagnosis::Advice;
using diagnosis::Consultation;

namespace {

void add_listed(std::string& text, const std::vector<std::string>& list) {
    for (const std::string& each : list) text += (text.empty() ? "" : ", ") + each;
}

/// What the diagram draws of it.
std::string thing_of(const model::Circuit& circuit, const network::Fault& fault) {
    if (fault.wire >= 0) return circuit.wires[at(fault.wire)].id;
    return fault.part >= 0 ? circuit.parts[at(fault.part)].id : "";
}

SuspectLine line_of(const Consultation& consultation, const view::SuspectRow& row) {
    SuspectLine line;
    line.name = view::suspect_name(consultation, row.hypothesis);
    line.probability = row.probability;
    line.share = view::share_text(row.probability);
    line.what = row.what;
    add_listed(line.where, row.places);
    add_listed(line.where, row.wires);
    if (row.readings > 0)
        line.reason = "explains " + std::to_string(row.explained) + " of " + std::to_string(row.readings) +
                      (row.readings == 1 ? " reading" : " readings");
    for (const diagnosis::Reason& reason : row.contradictions)
        line.contradictions.push_back(view::contradiction_text(consultation, reason));
    for (const int index : consultation.hypotheses().faults_of(row.hypothesis)) {
        const network::Fault& fault = consultation.dictionary().faults[at(index)].fault;
        line.faults.push_back(fault.text);
        line.things.push_back(thing_of(consultation.circuit(), fault));
    }
    return line;
}

NextStep next_of(const Consultation& consultation, const Advice& advice) {
    NextStep next;
    const std::string text = view::next_step_text(consultation, advice);
    for (std::size_t from = 0; from < text.size();) {
        const std::size_t end = std::min(text.find('\n', from), text.size());
        const std::string line = text.substr(from, end - from);
        if (next.sentence.empty())
            next.sentence = line;
        else
            next.outcomes.push_back(line.substr(std::min(line.find_first_not_of(' '), line.size())));
        from = end + 1;
    }
    if (advice.choice.kind != diagnosis::Choice::Kind::test) return next;
    const model::Circuit& circuit = consultation.circuit();
    const diagnosis::Dictionary& dictionary = consultation.dictionary();
    const model::OperatingState* state = circuit.find_state(dictionary.states[at(advice.choice.test.state)]);
    next.test = Spotted{static_cast<int>(state - circuit.states.data()),
                        dictionary.findings[at(advice.choice.test.finding)]};
    return next;
}

}  // namespace

Conclusion conclude(Consultation& consultation, const diagnosis::Evidence& evidence, int own_states) {
    Conclusion conclusion;
    conclusion.readings = static_cast<int>(evidence.readings.size());
    if (!leaves_anything(consultation.hypotheses(), evidence)) {
        conclusion.trouble = "All that could be noticed has been cleared: nothing is left to suspect.";
        return conclusion;
    }
    std::vector<int> to_test_in(at(own_states));
    std::iota(to_test_in.begin(), to_test_in.end(), 0);
    const Advice& advice = conclusion.advice.emplace(
        consultation.advise(evidence, to_test_in, diagnosis::Patience::somebody_waits));
    const auto rows = view::suspect_rows(consultation, advice, view::kMostSuspects);
    conclusion.other_pairs = advice.ranking.other_pairs;
    conclusion.others = 1 - conclusion.other_pairs;
    for (const view::SuspectRow& row : rows) {
        conclusion.suspects.push_back(line_of(consultation, row));
        conclusion.others -= row.probability;
    }
    for (const auto& group : view::rows_not_told_apart(consultation, rows)) {
        std::vector<std::string> names;
        names.reserve(group.size());
        for (const int row : group) names.push_back(conclusion.suspects[at(row)].name);
        add_listed(conclusion.alike.emplace_back(), names);
    }
    conclusion.single_explains = advice.ranking.single_explains;
    conclusion.next = next_of(consultation, advice);
    return conclusion;
}

}  // namespace halfsplit::window
