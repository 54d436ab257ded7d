#include "ui/view/suspect_rows.h"

#include <algorithm>
#include <map>

#include "engine/base/index.h"
#include "ui/view/point_rows.h"

namespace halfsplit::view {

using diagnosis::Consultation;

namespace {

/// What is left beyond is said by none of many.
constexpr double kToldShare = 0.99;

void add_new(std::vector<std::string>& list, const std::string& text) {
    if (std::ranges::find(list, text) == list.end()) list.push_back(text);
}

/// The first sentence of the kind's text: what is wrong; the rest says how it shows.
std::string first_sentence(std::string_view text) {
    return std::string(text.substr(0, std::min(text.find(": "), text.find(". "))));
}

void add_concern(const model::Circuit& circuit, const network::Fault& fault, SuspectRow& row) {
    const diagnosis::Concern concern = diagnosis::concern_of(circuit, fault);
    for (const int place : concern.places) add_new(row.places, circuit.places[at(place)].title);
    for (const int wire : concern.wires)
        add_new(row.wires, circuit.wires[at(wire)].id + " " + wire_text(circuit.wires[at(wire)]));
}

SuspectRow row_of(const Consultation& consultation, const diagnosis::Advice& advice, int hypothesis) {
    SuspectRow row;
    row.hypothesis = hypothesis;
    row.fault = hypothesis_text(consultation, hypothesis);
    row.probability = advice.ranking.probability[at(hypothesis)];
    for (const int index : consultation.hypotheses().faults_of(hypothesis)) {
        const network::Fault& fault = consultation.dictionary().faults[at(index)].fault;
        row.what += (row.what.empty() ? "" : "; ") + first_sentence(fault.spec->text);
        add_concern(consultation.circuit(), fault, row);
    }
    for (const diagnosis::Reason& reason :
         reasons_for(consultation.hypotheses(), hypothesis, advice.evidence)) {
        ++row.readings;
        if (reason.verdict == diagnosis::Reason::Verdict::explains) ++row.explained;
        if (reason.verdict == diagnosis::Reason::Verdict::contradicts) row.contradictions.push_back(reason);
    }
    return row;
}

}  // namespace

std::vector<SuspectRow> suspect_rows(const Consultation& consultation, const diagnosis::Advice& advice,
                                     int most) {
    std::vector<SuspectRow> rows;
    double sum = 0;
    for (const int hypothesis : advice.ranking.order) {
        if (static_cast<int>(rows.size()) == most || sum >= kToldShare) break;
        rows.push_back(row_of(consultation, advice, hypothesis));
        sum += rows.back().probability;
    }
    return rows;
}

std::vector<std::vector<int>> rows_not_told_apart(const Consultation& consultation,
                                                  const std::vector<SuspectRow>& rows) {
    std::vector<int> members;
    std::map<int, int> row_of;
    for (const SuspectRow& row : rows) {
        // Only pairs that were worked out in every state could be compared.
        if (consultation.hypotheses().is_pair(row.hypothesis)) continue;
        row_of[row.hypothesis] = static_cast<int>(&row - rows.data());
        members.push_back(row.hypothesis);
    }
    auto groups = diagnosis::ambiguity_groups(consultation.hypotheses(), members, consultation.permitted());
    std::erase_if(groups, [](const std::vector<int>& group) { return group.size() < 2; });
    for (std::vector<int>& group : groups)
        for (int& member : group) member = row_of.at(member);
    return groups;
}

std::string hypothesis_text(const Consultation& consultation, int hypothesis) {
    return hypothesis_text(consultation.hypotheses(), hypothesis);
}

std::string hypothesis_text(const diagnosis::Hypotheses& hypotheses, int hypothesis) {
    std::string text;
    for (const int index : hypotheses.faults_of(hypothesis))
        text += (text.empty() ? "" : " and ") + hypotheses.dictionary().faults[at(index)].fault.text;
    return text.empty() ? "none" : text;
}

}  // namespace halfsplit::view
