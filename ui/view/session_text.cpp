#include "ui/view/session_text.h"

#include <algorithm>

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "engine/diagnosis/sheet/caution.h"
#include "engine/instruments/instrument.h"
#include "engine/tracing/step.h"
#include "ui/view/point_rows.h"
#include "ui/view/sheet_text.h"
#include "ui/view/table.h"

namespace halfsplit::view {

using practice::Entry;
using practice::Scenario;

namespace {

constexpr std::size_t kGroup = 3;
/// Stands before the rest where nothing does anything.
constexpr const char* kNothingBut = "nothing but";

bool is_all_there_is(const Entry& entry, const practice::Observed& observed) {
    return observed.about == practice::kTheRest && entry.observed.size() == 1;
}

/// 84000 as "84 000": by threes with a space (ISO 80000-1, from memory).
std::string grouped(double number) {
    std::string digits = fixed(number, 0);
    for (std::size_t i = digits.size(); i > kGroup; i -= kGroup) digits.insert(i - kGroup, " ");
    return digits;
}

Table part_list(const model::Circuit& circuit) {
    Table table{{{"part"}, {"what it is"}, {"kind"}, {"place"}}, {}};
    for (int index = 0; index < static_cast<int>(circuit.parts.size()); ++index) {
        const model::Part& part = circuit.parts[at(index)];
        table.rows.push_back(
            {part.id, part.title, std::string(part.kind->title), tracing::place_title(circuit, index)});
    }
    return table;
}

Table wire_list(const model::Circuit& circuit) {
    Table table{{{"wire"}, {"from"}, {"to"}, {"colour, mm2"}}, {}};
    for (const model::Wire& wire : circuit.wires)
        table.rows.push_back(
            {wire.id, circuit.point_name(wire.from), circuit.point_name(wire.to), wire_text(wire)});
    return table;
}

Table place_list(const model::Circuit& circuit) {
    Table table{{{"place"}, {"minutes to get at it", Table::Align::right}}, {}};
    for (const model::Place& place : circuit.places)
        table.rows.push_back({place.title, number_text(place.access_min)});
    return table;
}

Table state_list(const model::Circuit& circuit) {
    Table table{{{"state"}, {"what it is"}}, {}};
    for (const model::OperatingState& state : circuit.states) table.rows.push_back({state.id, state.title});
    return table;
}

std::string positions_of(const model::Part& part) {
    std::string positions;
    for (const model::Position& position : part.positions)
        positions +=
            (positions.empty() ? "" : ", ") + position.id + (position.momentary ? " (springs back)" : "");
    return positions;
}

Table switch_list(const model::Circuit& circuit) {
    Table table{{{"what"}, {"what it is"}, {"can be"}}, {}};
    for (const model::Part& part : circuit.parts)
        if (part.kind->operation == model::Operation::person)
            table.rows.push_back({part.id, part.title, positions_of(part)});
    for (const model::Quantity& quantity : circuit.quantities)
        table.rows.push_back(
            {quantity.id, quantity.title,
             number_text(quantity.min) + " to " + number_text(quantity.max) + " " + quantity.unit});
    return table;
}

Table instrument_list(const Scenario& scenario) {
    Table table{{{"instrument"}, {"what it is"}}, {}};
    for (const instruments::Instrument& each : instruments::instruments())
        if (std::ranges::find(scenario.instruments, each.id) != scenario.instruments.end())
            table.rows.push_back({std::string(each.id), std::string(each.text)});
    return table;
}

}  // namespace

std::string wrapped(std::string_view text, std::size_t width, const std::string& indent) {
    std::string lines;
    std::string line = indent;
    while (!text.empty()) {
        const std::size_t space = std::min(text.find(' '), text.size());
        const std::string_view word = text.substr(0, space);
        if (line.size() > indent.size() && line.size() + 1 + word.size() > width) {
            lines += line + "\n";
            line = indent;
        }
        if (line.size() > indent.size()) line += ' ';
        line += word;
        text.remove_prefix(std::min(space + 1, text.size()));
    }
    return lines + line + "\n";
}

std::string clock_text(double minutes) {
    return fixed(minutes, 1) + " min";
}

std::string mileage_text(const practice::JobCard& card) {
    return grouped(card.mileage_km) + " km";
}

std::vector<std::string> cautions_of(const Scenario& scenario, const model::Circuit& circuit) {
    std::vector<std::string> cautions = scenario.cautions;
    for (const diagnosis::Caution& caution : diagnosis::cautions_for(circuit))
        cautions.push_back(caution_text(circuit, caution));
    return cautions;
}

std::string job_card_text(const Scenario& scenario, const model::Circuit& circuit) {
    const practice::JobCard& card = scenario.job_card;
    std::string text = "Job card: " + scenario.title + " (level " + std::to_string(scenario.level) + " of " +
                       std::to_string(practice::kLevels) + ")\n";
    text += "  Vehicle   " + card.vehicle + ", " + mileage_text(card) + "\n";
    text += "  Circuit   " + circuit.title + "\n\n";
    text += wrapped("\"" + card.complaint + "\"", kTextWidth, "  ");
    for (const std::string& line : card.history) text += wrapped(line, kTextWidth, "  ");
    text +=
        "\n  It stands here: " + circuit.states[static_cast<std::size_t>(scenario.arrives_in)].title + ".\n";
    text += "  The customer will pay for " + number_text(scenario.budget_min) + " minutes.\n\nCautions\n";
    for (const std::string& caution : cautions_of(scenario, circuit))
        text += "  - " + wrapped(caution, kTextWidth, "    ").substr(4);
    return text;
}

std::string observed_sentence(const Entry& entry, const practice::Observed& observed,
                              const std::string& name) {
    if (is_all_there_is(entry, observed)) return std::string(kNothingBut) + " " + observed.shown;
    return name + (observed.about == practice::kTheRest ? " " : ": ") + observed.shown;
}

EntryWords entry_words(const model::Circuit& circuit, const Entry& entry) {
    EntryWords words;
    for (const practice::Observed& each : entry.observed) {
        const model::Part* part = circuit.find_part(each.about);
        const std::string name = part == nullptr ? each.about : part_text(*part);
        words.observed.push_back({is_all_there_is(entry, each) ? kNothingBut : name, each.shown,
                                  observed_sentence(entry, each, name)});
    }
    words.told = entry.told;
    if (entry.observed.empty() && entry.told.empty() && practice::is_done_to_vehicle(entry.action.verb))
        words.told = "nothing is seen or heard to change";
    for (const practice::Slip& slip : entry.slips)
        words.cautions.push_back("Caution: " + slip.what + ". " + slip.why + ".");
    words.clock = clock_text(entry.minutes) + ", in all " + clock_text(entry.clock_min);
    return words;
}

std::string entry_text(const model::Circuit& circuit, const Entry& entry) {
    const EntryWords words = entry_words(circuit, entry);
    std::size_t width = 0;
    for (const EntryWords::Line& line : words.observed) width = std::max(width, line.about.size());
    std::string text;
    for (const EntryWords::Line& line : words.observed)
        text += "  " + line.about + std::string(width - line.about.size() + 2, ' ') + line.shown + "\n";
    if (!words.told.empty()) text += wrapped(words.told, kTextWidth, "  ");
    for (const std::string& caution : words.cautions) text += wrapped(caution, kTextWidth, "  ");
    return text + "  " + words.clock + "\n";
}

std::string verbs_text() {
    Table table{{{"say"}, {"to"}}, {}};
    for (const practice::VerbSpec& spec : practice::verbs())
        table.rows.push_back(
            {std::string(spec.word) + (spec.arguments.empty() ? "" : " ") + std::string(spec.arguments),
             std::string(spec.text)});
    return aligned_text(table, "  ");
}

std::string circuit_list_text(const Scenario& scenario, const model::Circuit& circuit,
                              std::string_view subject) {
    if (subject == "parts") return aligned_text(part_list(circuit), "  ");
    if (subject == "wires") return aligned_text(wire_list(circuit), "  ");
    if (subject == "places") return aligned_text(place_list(circuit), "  ");
    if (subject == "states") return aligned_text(state_list(circuit), "  ");
    if (subject == "switches") return aligned_text(switch_list(circuit), "  ");
    if (subject == "instruments") return aligned_text(instrument_list(scenario), "  ");
    return "";
}

}  // namespace halfsplit::view
