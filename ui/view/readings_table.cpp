#include "ui/view/readings_table.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "engine/diagnosis/dictionary/sign.h"
#include "engine/diagnosis/sheet/sign_words.h"
#include "ui/view/finding_text.h"
#include "ui/view/sheet_text.h"

namespace halfsplit::view {

using diagnosis::FilledRow;
using diagnosis::Finding;
using model::Circuit;

namespace {

constexpr const char* kFuseMillivolts = "fuse-millivolts";

std::size_t column_of(const Table& table, std::string_view heading) {
    const auto column = std::ranges::find(table.columns, heading, &Table::Column::heading);
    return static_cast<std::size_t>(column - table.columns.begin());
}

/// A line of the table that is read back: the same words that a sheet has.
struct Words {
    std::string at;
    std::string against;
    std::string instrument;
};

Words words_of(const Circuit& circuit, const FilledRow& reading) {
    if (reading.instrument != kFuseMillivolts)
        return {reading.finding.at, reading.finding.against, reading.instrument};
    const auto pin = circuit.find_pin(reading.finding.at.substr(0, reading.finding.at.find('@')));
    return {pin ? circuit.parts[at(pin->part)].id : reading.finding.at, "", reading.instrument};
}

std::string measured_text(const Circuit& circuit, const FilledRow& reading) {
    const auto sources = diagnosis::sign_sources(circuit);
    const diagnosis::SignSource* source = find_sign_source(sources, reading.finding.at);
    if (reading.finding.kind != Finding::Kind::sign || source == nullptr) return number_text(reading.value);
    return std::string(sign_word(source->shows, static_cast<diagnosis::Sign>(std::lround(reading.value))));
}

std::string complaint_text(const FilledRow& reading) {
    return reading.is_complaint ? "yes" : "";
}

/// A line of its own, in whatever columns there are.
void add_reading(const Circuit& circuit, const FilledRow& reading, Table& table) {
    const Words words = words_of(circuit, reading);
    std::vector<std::string>& row = table.rows.emplace_back(table.columns.size());
    const auto set = [&](std::string_view heading, std::string text) {
        row[column_of(table, heading)] = std::move(text);
    };
    set("state", circuit.states[at(reading.state)].id);
    set("place", finding_place(circuit, reading.finding));
    set("at", words.at);
    set("against", words.against);
    set("instrument", words.instrument);
    set("unit", plain_unit(reading.finding));
    set("measured", measured_text(circuit, reading));
    set("complaint", complaint_text(reading));
}

}  // namespace

std::string plain_unit(const Finding& finding) {
    switch (finding.kind) {
        case Finding::Kind::voltage:
            return "V";
        case Finding::Kind::current:
            return "A";
        case Finding::Kind::sign:
            break;
    }
    return "";
}

std::vector<Finding> findings_on(const Circuit& circuit, const diagnosis::Sheet& sheet) {
    const auto sources = diagnosis::sign_sources(circuit);
    Table table = sheet_table(circuit, sheet);
    const std::size_t at_column = column_of(table, "at");
    const std::size_t unit_column = column_of(table, "unit");
    const std::size_t measured = column_of(table, "measured");
    for (std::vector<std::string>& row : table.rows) {
        const diagnosis::SignSource* source = find_sign_source(sources, row[at_column]);
        const bool is_sign = row[unit_column].empty() && source != nullptr;
        row[measured] = is_sign ? std::string(sign_word(source->shows, diagnosis::Sign::none)) : "0";
    }
    const auto read = diagnosis::read_readings(circuit, csv_text(table), "");
    if (!read || read->size() != table.rows.size())
        throw std::logic_error("a sheet that cannot be read back");
    std::vector<Finding> findings;
    findings.reserve(read->size());
    for (const FilledRow& row : *read) findings.push_back(row.finding);
    return findings;
}

Table readings_table(const Circuit& circuit, std::span<const FilledRow> readings) {
    Table table;
    for (const char* name :
         {"state", "place", "at", "against", "instrument", "unit", "measured", "complaint"})
        table.columns.push_back({name});
    for (const FilledRow& reading : readings) add_reading(circuit, reading, table);
    return table;
}

Table filled_sheet_table(const Circuit& circuit, const diagnosis::Sheet& sheet,
                         std::span<const FilledRow> readings) {
    Table table = sheet_table(circuit, sheet);
    const std::vector<Finding> findings = findings_on(circuit, sheet);
    const std::size_t measured = column_of(table, "measured");
    const std::size_t complaint = column_of(table, "complaint");
    for (const FilledRow& reading : readings) {
        bool is_proposed = false;
        std::size_t line = 0;
        for (const diagnosis::StateSheet& state : sheet.states)
            for (std::size_t i = 0; i < state.rows.size(); ++i, ++line) {
                if (reading.state != state.state || !is_same_finding(reading.finding, findings[line]))
                    continue;
                table.rows[line][measured] = measured_text(circuit, reading);
                table.rows[line][complaint] = complaint_text(reading);
                is_proposed = true;
            }
        if (!is_proposed) add_reading(circuit, reading, table);
    }
    return table;
}

}  // namespace halfsplit::view
