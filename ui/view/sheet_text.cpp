#include "ui/view/sheet_text.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "engine/diagnosis/sheet/sign_words.h"
#include "ui/view/point_rows.h"

namespace halfsplit::view {

using diagnosis::Practice;
using diagnosis::SheetRow;
using model::Circuit;

namespace {

constexpr const char* kPulses = "pulses";
constexpr const char* kToAndFro = "goes to and fro by itself between low and high";
constexpr const char* kAGuide = "limits are a guide, a few sound vehicles more lie outside";
constexpr const char* kOnAndOff = "on and off";
constexpr const char* kNothingDrivesIt = "nothing drives it";
constexpr const char* kMoreByDesign = "drops more than practice allows by design, the limits count";

/// What a row is read in on paper.
struct Scale {
    const char* unit;
    double per_volt;
    int decimals;
};

Scale scale_of(const SheetRow& row) {
    const bool is_small = row.kind == SheetRow::Kind::drop || row.practice == Practice::ground;
    constexpr double kSmallV = 1;  // a drop of more is a fault, and no matter of millivolts
    if (is_small && std::abs(row.high) < kSmallV && std::abs(row.low) < kSmallV) return {"mV", 1000, 0};
    return {"V", 1, 2};
}

/// The last digit is the one outside. In the scale's unit.
double rounded(double volts, const Scale& scale, double (*direction)(double)) {
    const double steps = std::pow(10.0, scale.decimals);
    constexpr double kSlack = 1e-6;  // so that 12.30 does not become 12.29
    const double slack = direction(0.5) > 0 ? -kSlack : kSlack;
    return direction(volts * scale.per_volt * steps + slack) / steps;
}

double down(double value) {
    return std::floor(value);
}
double up(double value) {
    return std::ceil(value);
}

diagnosis::Shows shows_of(const Circuit& circuit, const std::string& name) {
    for (const diagnosis::SignSource& source : diagnosis::sign_sources(circuit))
        if (source.name == name) return source.shows;
    return diagnosis::Shows::filament;
}

std::string sign_text(const Circuit& circuit, const SheetRow& row) {
    return std::string(sign_word(shows_of(circuit, row.at), row.sign));
}

std::string id_of(const Circuit& circuit, int part) {
    return part < 0 ? "" : circuit.parts[at(part)].id;
}

std::string wires_text(const Circuit& circuit, const std::vector<int>& wires) {
    std::vector<std::string> texts;
    for (const int wire : wires) {
        std::string text = wire_text(circuit.wires[at(wire)]);
        if (std::ranges::find(texts, text) == texts.end()) texts.push_back(std::move(text));
    }
    std::string all;
    for (const std::string& text : texts) all += (all.empty() ? "" : ", ") + text;
    return all;
}

std::string csv_number(double volts, double (*direction)(double)) {
    constexpr double kSteps = 1e4;  // the best meter's last digit is 0.1 mV
    constexpr double kSlack = 1e-6;
    const double slack = direction(0.5) > 0 ? -kSlack : kSlack;
    return number_text(direction(volts * kSteps + slack) / kSteps + 0.0);
}

double nearest(double value) {
    return std::round(value);
}

std::string note_of(const SheetRow& row) {
    if (row.pulses) return kToAndFro;
    if (row.floating) return kNothingDrivesIt;
    std::string note = row.bends ? kAGuide : "";
    if (row.exceeds_practice()) note += (note.empty() ? "" : "; ") + std::string(kMoreByDesign);
    return note;
}

std::string place_text(const Circuit& circuit, int place) {
    return place < 0 ? "" : circuit.places[at(place)].title;
}

std::string condition_text(const model::Part& part, int condition) {
    const model::Position& position = part.positions[at(condition)];
    return position.id;
}

/// Of a switch its positions' titles, where it has some; of others the condition, as in `volts`.
std::string setting_text(const model::Part& part, const std::string& to) {
    const auto position = std::ranges::find(part.positions, to, &model::Position::id);
    if (position == part.positions.end()) return to + " %";
    const bool is_titled = part.kind->authored_positions && !position->title.empty();
    return is_titled ? position->title : position->id;
}

}  // namespace

std::string part_text(const model::Part& part) {
    return part.title.empty() ? part.id : part.id + " " + part.title;
}

SheetCells sheet_cells(const Circuit& circuit, const SheetRow& row) {
    SheetCells cells;
    cells.at = row.at;
    cells.against = row.against;
    cells.part = row.practice == Practice::wire ? "run of wire" : circuit.parts[at(row.part)].title;
    cells.wires = wires_text(circuit, row.wires);
    cells.fuse = id_of(circuit, row.fuse);
    cells.ground = id_of(circuit, row.ground);
    if (row.kind == SheetRow::Kind::sign) {
        cells.expected = row.pulses ? kOnAndOff : sign_text(circuit, row);
        return cells;
    }
    const Scale scale = scale_of(row);
    cells.unit = scale.unit;
    const std::string allowed = fixed(1000 * row.allowed_v, 0) + " mV";
    if (row.practice != Practice::none)
        cells.allowed = row.exceeds_practice() ? "(" + allowed + ")" : allowed;
    if (row.floating) {
        cells.expected = "floating";
        cells.limits = kNothingDrivesIt;
        return cells;
    }
    cells.expected =
        row.pulses ? kPulses : fixed(row.expected * scale.per_volt, scale.decimals) + " " + scale.unit;
    const double low = rounded(row.low, scale, down);
    const double high = rounded(row.high, scale, up);
    cells.low_v = low / scale.per_volt;
    cells.high_v = high / scale.per_volt;
    cells.limits =
        (row.bends ? "about " : "") + fixed(low, scale.decimals) + " \u2026 " + fixed(high, scale.decimals);
    return cells;
}

std::vector<std::string> steps_text(const Circuit& circuit, const model::OperatingState& state) {
    std::vector<std::string> lines;
    for (const model::StateStep& step : state.steps) {
        if (const auto* settle = std::get_if<model::SettleStep>(&step)) {
            lines.push_back("wait " + number_text(settle->seconds) + " s");
            continue;
        }
        const auto& set = std::get<model::SetStep>(step);
        if (const model::Part* part = circuit.find_part(set.what))
            lines.push_back(part_text(*part) + ": " + setting_text(*part, set.to));
        else if (const model::Quantity* quantity = circuit.find_quantity(set.what))
            lines.push_back((quantity->title.empty() ? quantity->id : quantity->title) + ": " + set.to + " " +
                            quantity->unit);
    }
    return lines;
}

std::string doubt_text(const Circuit& circuit, const diagnosis::SheetDoubt& doubt) {
    const model::Part& part = circuit.parts[at(doubt.part)];
    constexpr double kPerThousand = 1000;
    return part_text(part) + ", here " + condition_text(part, doubt.now) + ", is " +
           condition_text(part, doubt.then) + " in " +
           number_text(std::max(1.0, std::round(doubt.chance * kPerThousand))) +
           " of 1000 sound vehicles: the limits below do not hold if it is.";
}

std::string caution_text(const Circuit& circuit, const diagnosis::Caution& caution) {
    std::string text = caution.text;
    for (std::size_t i = 0; i < caution.parts.size(); ++i)
        text += (i == 0 ? " " : "; ") + part_text(circuit.parts[at(caution.parts[i])]);
    return caution.parts.empty() ? text : text + ".";
}

Table sheet_table(const Circuit& circuit, const diagnosis::Sheet& sheet) {
    Table table;
    for (const char* name :
         {"state", "place", "at", "part", "wires", "against", "instrument", "expected", "low", "high", "unit",
          "measured", "complaint", "allowed", "fuse", "ground", "note"})
        table.columns.push_back({name});
    for (const diagnosis::StateSheet& state : sheet.states)
        for (const SheetRow& row : state.rows) {
            const SheetCells cells = sheet_cells(circuit, row);
            const bool is_sign = row.kind == SheetRow::Kind::sign;
            const bool has_limits = !is_sign && !row.floating;
            const bool has_practice = row.practice != Practice::none;
            table.rows.push_back({circuit.states[at(state.state)].id, place_text(circuit, row.place), row.at,
                                  cells.part, cells.wires, row.against, row.instrument,
                                  is_sign      ? cells.expected
                                  : row.pulses ? ""
                                               : csv_number(row.expected, nearest),
                                  has_limits ? csv_number(row.low, down) : "",
                                  has_limits ? csv_number(row.high, up) : "", is_sign ? "" : "V", "", "",
                                  has_practice ? csv_number(row.allowed_v, nearest) : "", cells.fuse,
                                  cells.ground, note_of(row)});
        }
    return table;
}

std::string sheet_text(const Circuit& circuit, const diagnosis::Sheet& sheet) {
    std::string text = circuit.title + ": what should be found\n\n";
    for (const diagnosis::Caution& caution : sheet.cautions)
        text += "! " + caution_text(circuit, caution) + "\n";
    for (const diagnosis::StateSheet& state : sheet.states) {
        const model::OperatingState& where = circuit.states[at(state.state)];
        text += "\n" + where.id + ": " + where.title + "\n";
        for (const std::string& step : steps_text(circuit, where)) text += "  - " + step + "\n";
        for (const diagnosis::SheetDoubt& doubt : state.doubts)
            text += "  ! " + doubt_text(circuit, doubt) + "\n";
        Table table;
        table.columns = {{"place"},
                         {"at"},
                         {"against"},
                         {"part"},
                         {"wires"},
                         {"expected", Table::Align::right},
                         {"limits", Table::Align::right},
                         {"allowed", Table::Align::right},
                         {"fuse"},
                         {"ground"}};
        for (const SheetRow& row : state.rows) {
            SheetCells cells = sheet_cells(circuit, row);
            table.rows.push_back({place_text(circuit, row.place), cells.at, cells.against, cells.part,
                                  cells.wires, cells.expected, cells.limits, cells.allowed, cells.fuse,
                                  cells.ground});
        }
        text += aligned_text(table, "  ");
    }
    return text;
}

}  // namespace halfsplit::view
