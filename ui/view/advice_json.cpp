#include <cmath>
#include <nlohmann/json.hpp>

#include "engine/base/index.h"
#include "ui/view/advice_text.h"
#include "ui/view/finding_text.h"
#include "ui/view/suspect_rows.h"

namespace halfsplit::view {

using diagnosis::Advice;
using diagnosis::Choice;
using diagnosis::Consultation;
using diagnosis::Finding;
using Json = nlohmann::ordered_json;

namespace {

/// A sign by its word, else the number.
Json value_json(const Consultation& consultation, const Finding& finding, double value) {
    if (finding.kind == Finding::Kind::sign) return reading_text(consultation.circuit(), finding, value);
    return value;
}

Json reading_json(const Consultation& consultation, const diagnosis::Reason& reason) {
    const Finding& finding = consultation.dictionary().findings[at(reason.reading.finding)];
    return {{"state", consultation.dictionary().states[at(reason.reading.state)]},
            {"instrument", instrument_of(finding)},
            {"at", finding.at},
            {"against", finding.against},
            {"read", value_json(consultation, finding, reason.reading.value)},
            {"expected", value_json(consultation, finding, reason.expected.mean)}};
}

Json suspect_json(const Consultation& consultation, const SuspectRow& row) {
    Json json{{"fault", row.fault},
              {"probability", row.probability},
              {"places", row.places},
              {"wires", row.wires},
              {"explains", row.explained},
              {"readings", row.readings},
              {"contradicted_by", Json::array()}};
    for (const diagnosis::Reason& reason : row.contradictions)
        json["contradicted_by"].push_back(reading_json(consultation, reason));
    return json;
}

Json names_of(const Consultation& consultation, const std::vector<int>& hypotheses) {
    Json names = Json::array();
    for (const int each : hypotheses) names.push_back(hypothesis_text(consultation, each));
    return names;
}

Json next_json(const Consultation& consultation, const Advice& advice) {
    const Choice& choice = advice.choice;
    Json json{{"do", choice.kind == Choice::Kind::test ? "test" : "repair"}};
    if (choice.kind == Choice::Kind::repair) {
        json["faults"] = names_of(consultation, choice.group);
        json["probability"] = choice.probability;
    } else {
        const Finding& finding = consultation.dictionary().findings[at(choice.test.finding)];
        json.update({{"state", consultation.dictionary().states[at(choice.test.state)]},
                     {"instrument", instrument_of(finding)},
                     {"at", finding.at},
                     {"against", finding.against},
                     {"place", finding_place(consultation.circuit(), finding)},
                     {"minutes", choice.minutes},
                     {"bits", choice.bits},
                     {"outcomes", Json::array()}});
        for (const Choice::Split& split : choice.splits)
            json["outcomes"].push_back({{"low", value_json(consultation, finding, split.low)},
                                        {"high", value_json(consultation, finding, split.high)},
                                        {"probability", split.probability},
                                        {"suspects", names_of(consultation, split.hypotheses)}});
    }
    // NaN, where too much is possible for a plan, is null in JSON.
    json["minutes_to_go"] = choice.minutes_to_go;
    json["minutes_repairing_now"] = choice.minutes_repairing_now;
    json["text"] = next_step_text(consultation, advice);
    return json;
}

}  // namespace

std::string advice_json(const Consultation& consultation, const Advice& advice, int most_suspects) {
    const auto rows = suspect_rows(consultation, advice, most_suspects);
    Json json{{"circuit", consultation.circuit().id},
              {"single_explains", advice.ranking.single_explains},
              {"other_pairs", advice.ranking.other_pairs},
              {"suspects", Json::array()}};
    for (const SuspectRow& row : rows) json["suspects"].push_back(suspect_json(consultation, row));
    json["next"] = next_json(consultation, advice);
    json["groups"] = Json::array();
    for (const auto& group : rows_not_told_apart(consultation, rows)) {
        Json names = Json::array();
        for (const int row : group) names.push_back(rows[at(row)].fault);
        json["groups"].push_back(names);
    }
    return json.dump(2);
}

}  // namespace halfsplit::view
