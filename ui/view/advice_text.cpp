#include "ui/view/advice_text.h"

#include <cmath>

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "ui/view/finding_text.h"
#include "ui/view/suspect_rows.h"
#include "ui/view/table.h"

namespace halfsplit::view {

using diagnosis::Advice;
using diagnosis::Choice;
using diagnosis::Consultation;
using diagnosis::Finding;

namespace {

/// Of the suspects behind one outcome, so many are named.
constexpr std::size_t kMostNamed = 3;
/// "  < 0.1 %"
constexpr std::size_t kShareWidth = 9;
/// Outcomes that are told, at most.
constexpr std::size_t kMostOutcomes = 4;

std::string minutes_text(double minutes) {
    return number_text(std::round(minutes * 10) / 10) + " min";
}

std::string listed_or(const std::vector<std::string>& names) {
    std::string text;
    for (std::size_t i = 0; i < names.size(); ++i)
        text += (i == 0 ? "" : i + 1 == names.size() ? " or " : ", ") + names[i];
    return text;
}

std::string with_commas(const std::vector<std::string>& texts) {
    std::string all;
    for (const std::string& text : texts) all += (all.empty() ? "" : ", ") + text;
    return all;
}

std::string some_of(const Consultation& consultation, const std::vector<int>& hypotheses) {
    std::vector<std::string> names;
    for (std::size_t i = 0; i < hypotheses.size() && i < kMostNamed; ++i)
        names.push_back(suspect_name(consultation, hypotheses[i]));
    if (hypotheses.size() == kMostNamed + 1) names.push_back(suspect_name(consultation, hypotheses.back()));
    if (hypotheses.size() > kMostNamed + 1)
        names.push_back("one of " + std::to_string(hypotheses.size() - kMostNamed) + " others");
    return listed_or(names);
}

std::string row_text(const Consultation& consultation, const SuspectRow& row) {
    const std::string share = share_text(row.probability);
    std::string text = std::string(kShareWidth - share.size(), ' ') + share + "  " +
                       suspect_name(consultation, row.hypothesis) + "\n";
    const std::string indent(kShareWidth + 2, ' ');
    if (!row.what.empty()) text += indent + row.what + "\n";
    std::string where = with_commas(row.places);
    if (!row.wires.empty()) where += (where.empty() ? "" : "; ") + with_commas(row.wires);
    if (!where.empty()) text += indent + where + "\n";
    if (row.readings == 0) return text;
    text += indent + "explains " + std::to_string(row.explained) + " of " + std::to_string(row.readings) +
            (row.readings == 1 ? " reading" : " readings");
    for (std::size_t i = 0; i < row.contradictions.size(); ++i)
        text += (i == 0 ? "; contradicted by\n" : "\n") + indent + "  " +
                contradiction_text(consultation, row.contradictions[i]);
    return text + "\n";
}

std::string rest_text(double probability, std::string_view what) {
    constexpr double kWorthSaying = 0.005;
    if (probability <= kWorthSaying) return "";
    const std::string share = share_text(probability);
    return std::string(kShareWidth - share.size(), ' ') + share + "  " + std::string(what) + "\n";
}

/// What has to be done first to get at it.
std::string on_the_way(const Consultation& consultation, const Choice& choice) {
    const int place = consultation.workshop().test_place[at(choice.test.finding)];
    if (place < 0) return "";
    const std::string& title = consultation.circuit().places[at(place)].title;
    return choice.place_is_open ? title + " (open already)" : title;
}

std::string splits_text(const Consultation& consultation, const Choice& choice) {
    const Finding& finding = consultation.dictionary().findings[at(choice.test.finding)];
    std::string text;
    std::size_t told = 0;
    double rest = 0;
    for (const Choice::Split& split : choice.splits) {
        if (told == kMostOutcomes) {
            rest += split.probability;
            continue;
        }
        ++told;
        text += "  " + outcome_text(consultation.circuit(), finding, split.low, split.high) + " if it is " +
                some_of(consultation, split.hypotheses) + " (" + share_text(split.probability) + ")\n";
    }
    return rest > 0 ? text + "  something else (" + share_text(rest) + ")\n" : text;
}

std::string test_step_text(const Consultation& consultation, const Choice& choice) {
    const model::Circuit& circuit = consultation.circuit();
    const diagnosis::Dictionary& dictionary = consultation.dictionary();
    const std::string state = state_text(circuit, dictionary.states[at(choice.test.state)]);
    const std::string place = on_the_way(consultation, choice);
    return "Next (" + minutes_text(choice.minutes) +
           (choice.is_meanwhile ? "), while what is suspected is being worked out: " : "): ") +
           (place.empty() ? "" : place + ": ") +
           finding_text(circuit, dictionary.findings[at(choice.test.finding)]) +
           (choice.state_stands ? ", with the vehicle as it is: " : ", with the vehicle brought to: ") +
           state + ".\n" + splits_text(consultation, choice);
}

std::string repair_step_text(const Consultation& consultation, const Choice& choice) {
    if (choice.group.front() == 0)
        return "Next: nothing. No reading points to a fault any more (" + share_text(choice.probability) +
               ").\n";
    std::string text =
        "Next: repair " + some_of(consultation, choice.group) + " (" + share_text(choice.probability) + ")";
    if (choice.group.size() > 1) text += ", which no reading tells apart: look at one after the other";
    return text + ". Testing on would cost more than it could save.\n";
}

}  // namespace

std::string share_text(double share) {
    constexpr double kPercent = 100;
    constexpr double kTenth = 0.001;
    if (share > 0 && share < kTenth) return "< 0.1 %";
    return fixed(kPercent * share, 1) + " %";
}

std::string suspect_name(const Consultation& consultation, int hypothesis) {
    return hypothesis == 0 ? "no fault at all" : hypothesis_text(consultation, hypothesis);
}

std::string contradiction_text(const Consultation& consultation, const diagnosis::Reason& reason) {
    const Finding& finding = consultation.dictionary().findings[at(reason.reading.finding)];
    const model::Circuit& circuit = consultation.circuit();
    return consultation.dictionary().states[at(reason.reading.state)] + ", " +
           finding_text(circuit, finding) + ": " + reading_text(circuit, finding, reason.reading.value) +
           " read, " + reading_text(circuit, finding, reason.expected.mean) + " expected";
}

std::string next_step_text(const Consultation& consultation, const Advice& advice) {
    return advice.choice.kind == Choice::Kind::test ? test_step_text(consultation, advice.choice)
                                                    : repair_step_text(consultation, advice.choice);
}

std::string advice_text(const Consultation& consultation, const Advice& advice, int most_suspects) {
    const auto rows = suspect_rows(consultation, advice, most_suspects);
    const std::size_t readings = distinct_readings(advice.evidence.readings).size();
    std::string text = consultation.circuit().title + ": " + std::to_string(readings) +
                       (readings == 1 ? " reading, " : " readings, ") +
                       std::to_string(consultation.dictionary().faults.size()) + " possible faults\n\n";
    double told = 0;
    for (const SuspectRow& row : rows) {
        text += row_text(consultation, row);
        told += row.probability;
    }
    const double pairs = advice.ranking.other_pairs;
    text += rest_text(1 - told - pairs, "all others together");
    text += rest_text(pairs, "two faults at once, not worked out one by one");
    if (!advice.ranking.single_explains)
        text += "\nNo single fault explains these readings well: two faults, or a wrong reading.\n";
    for (const auto& group : rows_not_told_apart(consultation, rows)) {
        std::vector<std::string> names;
        names.reserve(group.size());
        for (const int row : group) names.push_back(suspect_name(consultation, rows[at(row)].hypothesis));
        text += "\nAlike in every reading: " + with_commas(names) + ".\n";
    }
    return text + "\n" + next_step_text(consultation, advice);
}

}  // namespace halfsplit::view
