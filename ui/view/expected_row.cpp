#include "ui/view/expected_row.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "engine/base/index.h"
#include "engine/base/nearest.h"
#include "engine/base/number.h"
#include "engine/diagnosis/dictionary/sign.h"
#include "engine/diagnosis/limits/scatter.h"
#include "engine/diagnosis/sheet/sign_words.h"
#include "engine/model/structure.h"
#include "ui/view/finding_text.h"
#include "ui/view/point_rows.h"
#include "ui/view/readings_table.h"

namespace halfsplit::view {

using diagnosis::FilledRow;
using diagnosis::Finding;
using diagnosis::SheetRow;
using model::Circuit;

namespace {

constexpr int kMilli = 1000;

const diagnosis::SignSource* source_of(const std::vector<diagnosis::SignSource>& sources,
                                       const Finding& finding) {
    return finding.kind == Finding::Kind::sign ? find_sign_source(sources, finding.at) : nullptr;
}

/// What may be written of a sign, and what of that would be a fault.
void add_choices(const diagnosis::SignSource& source, ExpectedRow& row) {
    row.choices = diagnosis::expected_words(source.shows);
    std::vector<std::string_view> others;
    for (const diagnosis::Sign sign :
         {diagnosis::Sign::works, diagnosis::Sign::weak, diagnosis::Sign::none, diagnosis::Sign::blown}) {
        const std::string_view word = sign_word(source.shows, sign);
        if (!word.empty() && word != row.cells.expected) others.push_back(word);
    }
    row.others = listed(others);
}

int part_at(const Circuit& circuit, const Finding& finding) {
    if (finding.kind == Finding::Kind::current) {
        const model::Wire* wire = circuit.find_wire(finding.at);
        return wire == nullptr ? 0 : wire->from.part;
    }
    const auto sources = diagnosis::sign_sources(circuit);
    if (const diagnosis::SignSource* source = source_of(sources, finding)) return source->part;
    const auto pin = circuit.find_pin(finding.at.substr(0, finding.at.find('@')));
    return pin ? pin->part : 0;
}

std::vector<int> wires_on(const Circuit& circuit, const Finding& finding) {
    std::vector<int> wires;
    const auto pin = circuit.find_pin(finding.at.substr(0, finding.at.find('@')));
    for (int wire = 0; wire < static_cast<int>(circuit.wires.size()); ++wire) {
        const model::Wire& each = circuit.wires[at(wire)];
        const bool is_it = finding.kind == Finding::Kind::current && each.id == finding.at;
        const bool ends_there =
            finding.kind == Finding::Kind::voltage && pin && (each.from == *pin || each.to == *pin);
        if (is_it || ends_there) wires.push_back(wire);
    }
    return wires;
}

/// What the sound vehicle leads one to find; nullopt where nobody has worked that out.
std::optional<diagnosis::Expectation> expectation_of(const Circuit& circuit,
                                                     const diagnosis::Consultation* consultation, int state,
                                                     const Finding& finding) {
    if (consultation == nullptr) return std::nullopt;
    const diagnosis::Dictionary& dictionary = consultation->dictionary();
    const int in = dictionary.index_of_state(circuit.states[at(state)].id);
    const int of = dictionary.index_of_finding(finding);
    if (in < 0 || of < 0) return std::nullopt;
    const auto expected = consultation->hypotheses().expectation(0, in, of);
    if (expected.says_nothing()) return std::nullopt;
    return expected;
}

SheetCells current_cells(const Circuit& circuit, const Finding& finding, double low, double high) {
    const model::Wire* wire = circuit.find_wire(finding.at);
    SheetCells cells;
    cells.at = finding.at;
    cells.part = "clamp around the wire";
    if (wire != nullptr) cells.wires = wire_text(*wire);
    cells.unit = "A";
    constexpr double kSteps = 100;
    cells.low_v = std::floor(low * kSteps) / kSteps;
    cells.high_v = std::ceil(high * kSteps) / kSteps;
    cells.limits = fixed(cells.low_v, 2) + " \u2026 " + fixed(cells.high_v, 2);
    cells.expected = fixed((low + high) / 2, 2) + " A";
    return cells;
}

}  // namespace

std::vector<ExpectedRow> expected_rows(const Circuit& circuit, const diagnosis::StateSheet& sheet) {
    const std::vector<Finding> findings = findings_on(circuit, {{}, {sheet}});
    const auto sources = diagnosis::sign_sources(circuit);
    std::vector<ExpectedRow> rows;
    rows.reserve(sheet.rows.size());
    for (std::size_t i = 0; i < sheet.rows.size(); ++i) {
        const SheetRow& from = sheet.rows[i];
        ExpectedRow row{sheet.state, findings[i], from.instrument,
                        from.part,   from.wires,  sheet_cells(circuit, from)};
        row.has_limits = from.kind != SheetRow::Kind::sign && !from.floating;
        if (const diagnosis::SignSource* source = source_of(sources, row.finding)) add_choices(*source, row);
        const double expected =
            from.kind == SheetRow::Kind::sign ? static_cast<int>(from.sign) : from.expected;
        if (!from.pulses && !from.floating) row.number = expected;
        rows.push_back(std::move(row));
    }
    return rows;
}

ExpectedRow expected_row(const Circuit& circuit, const diagnosis::Consultation* consultation, int state,
                         const Finding& finding) {
    const auto expected = expectation_of(circuit, consultation, state, finding);
    const auto sources = diagnosis::sign_sources(circuit);
    const double mean = expected ? expected->mean : 0;
    const double reach = expected ? diagnosis::kMiddle99 * expected->sigma : 0;
    ExpectedRow row{
        state, finding, instrument_of(finding), part_at(circuit, finding), wires_on(circuit, finding), {}};
    row.is_predicted = expected.has_value();
    if (expected) row.number = mean;
    row.has_limits = expected && finding.kind != Finding::Kind::sign;
    if (finding.kind == Finding::Kind::current) {
        row.cells = current_cells(circuit, finding, mean - reach, mean + reach);
    } else {
        SheetRow as_on_a_sheet{SheetRow::Kind::voltage, finding.at, finding.against, row.instrument,
                               row.part};
        if (finding.kind == Finding::Kind::sign) as_on_a_sheet.kind = SheetRow::Kind::sign;
        const bool is_drop = finding.kind == Finding::Kind::voltage && finding.against != model::kBodyId;
        if (is_drop) as_on_a_sheet.kind = SheetRow::Kind::drop;
        as_on_a_sheet.wires = row.wires;
        as_on_a_sheet.sign = static_cast<diagnosis::Sign>(std::lround(mean));
        as_on_a_sheet.expected = mean;
        as_on_a_sheet.low = mean - reach;
        as_on_a_sheet.high = mean + reach;
        row.cells = sheet_cells(circuit, as_on_a_sheet);
    }
    if (!expected) {
        row.cells.expected.clear();
        row.cells.limits.clear();
        row.cells.unit = plain_unit(finding);
    }
    if (const diagnosis::SignSource* source = source_of(sources, finding)) add_choices(*source, row);
    return row;
}

tl::expected<FilledRow, std::string> read_entry(const Circuit& circuit, const ExpectedRow& row,
                                                const std::string& text) {
    Table line;
    line.columns = {{"state"}, {"at"}, {"against"}, {"instrument"}, {"unit"}, {"measured"}};
    line.rows.push_back({circuit.states[at(row.state)].id, row.cells.at, row.cells.against, row.instrument,
                         row.cells.unit, text});
    auto read = diagnosis::read_readings(circuit, csv_text(line), "");
    if (!read) return tl::unexpected(read.error().front().message);
    if (read->empty()) return tl::unexpected(std::string("nothing stands there"));
    return read->front();
}

std::string entry_text(const Circuit& circuit, const ExpectedRow& row, double value) {
    if (row.finding.kind == Finding::Kind::sign) return reading_text(circuit, row.finding, value);
    constexpr double kFinest = 1e6;  // more than any meter shows
    const double factor = row.cells.unit == "mV" ? kMilli : 1;
    return number_text(std::round(value * factor * kFinest) / kFinest + 0.0);
}

Fit fit_of(const ExpectedRow& row, double value) {
    constexpr double kSame = 1e-9;  // of the same decimal number
    if (!row.is_predicted) return Fit::not_judged;
    if (row.finding.kind == Finding::Kind::sign) {
        // What goes on and off by itself is called what it is while it is on.
        const double expected = row.number.value_or(static_cast<int>(diagnosis::Sign::works));
        return std::lround(value) == std::lround(expected) ? Fit::as_expected : Fit::differs;
    }
    if (!row.has_limits) return Fit::not_judged;
    if (value < row.cells.low_v - kSame) return Fit::too_low;
    return value > row.cells.high_v + kSame ? Fit::too_high : Fit::as_expected;
}

std::string_view fit_words(Fit fit) {
    constexpr std::array<std::string_view, 5> kWords{"as expected", "too low", "too high", "not as expected",
                                                     "not judged"};
    return kWords[static_cast<std::size_t>(fit)];
}

std::string_view fit_sign(Fit fit) {
    constexpr std::array<std::string_view, 5> kSigns{"\u2713", "\u25BC", "\u25B2", "\u2260", ""};
    return kSigns[static_cast<std::size_t>(fit)];
}

}  // namespace halfsplit::view
