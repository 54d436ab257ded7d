#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "engine/base/csv.h"
#include "engine/diagnosis/sheet/read_readings.h"
#include "tests/support/circuit_text.h"
#include "ui/view/sheet_repeats.h"
#include "ui/view/sheet_text.h"

using namespace halfsplit;
using diagnosis::Practice;
using diagnosis::SheetRow;

namespace {

struct Made {
    model::Circuit circuit;
    diagnosis::Sheet sheet;
};

Made made(const char* name) {
    model::Circuit circuit = test::circuit_file(std::string("circuits/") + name + ".circuit.xml");
    auto sheet = diagnosis::make_sheet(circuit);
    REQUIRE(sheet);
    return {std::move(circuit), std::move(*sheet)};
}

std::size_t column_of(const view::Table& table, const char* name) {
    return static_cast<std::size_t>(std::ranges::find(table.columns, name, &view::Table::Column::heading) -
                                    table.columns.begin());
}

/// Somebody finds everything as it should be, and writes it down.
view::Table filled(view::Table table) {
    const std::size_t expected = column_of(table, "expected");
    const std::size_t measured = column_of(table, "measured");
    for (auto& row : table.rows) row[measured] = row[expected];
    return table;
}

/// As a spreadsheet that writes decimal commas saves it.
std::string from_a_spreadsheet(const view::Table& table) {
    const auto cell = [](std::string text, bool is_number) {
        if (is_number) std::ranges::replace(text, '.', ',');
        return text.find(';') == std::string::npos ? text : "\"" + text + "\"";
    };
    std::string text = "\xEF\xBB\xBF";
    for (const view::Table::Column& column : table.columns) text += column.heading + ";";
    text.back() = '\r';
    text += "\n";
    for (const auto& row : table.rows) {
        for (std::size_t i = 0; i < row.size(); ++i) {
            const std::string& name = table.columns[i].heading;
            text += cell(row[i], name == "expected" || name == "low" || name == "high" ||
                                     name == "measured" || name == "allowed") +
                    ";";
        }
        text.back() = '\r';
        text += "\n";
    }
    return text;
}

}  // namespace

TEST_CASE("A sheet's CSV comes back filled in, from us and from a spreadsheet with decimal commas") {
    for (const char* name : {"horn", "entry-step", "turn-signals"}) {
        const Made it = made(name);
        const view::Table table = filled(view::sheet_table(it.circuit, it.sheet));
        const auto plain = diagnosis::read_readings(it.circuit, view::csv_text(table), "a.csv");
        const auto spread = diagnosis::read_readings(it.circuit, from_a_spreadsheet(table), "a.csv");
        if (!plain) FAIL(to_text(plain.error().front()));
        if (!spread) FAIL(to_text(spread.error().front()));
        std::vector<const SheetRow*> rows;
        for (const diagnosis::StateSheet& state : it.sheet.states)
            for (const SheetRow& row : state.rows)
                if (!row.pulses || row.kind == SheetRow::Kind::sign) rows.push_back(&row);
        REQUIRE(plain->size() == rows.size());
        REQUIRE(spread->size() == rows.size());
        for (std::size_t i = 0; i < rows.size(); ++i) {
            INFO(name << " " << rows[i]->at);
            const bool is_sign = rows[i]->kind == SheetRow::Kind::sign;
            CHECK((*plain)[i].finding == (*spread)[i].finding);
            CHECK((*plain)[i].state == (*spread)[i].state);
            CHECK((*plain)[i].value == (*spread)[i].value);
            if (!is_sign)
                CHECK((*plain)[i].value == Approx(rows[i]->expected).margin(1e-4));
            else if (!rows[i]->pulses)
                CHECK((*plain)[i].value == static_cast<double>(rows[i]->sign));
        }
    }
}

TEST_CASE("The CSV's columns keep their names and its rows are complete") {
    const Made horn = made("horn");
    const std::string text = view::csv_text(view::sheet_table(horn.circuit, horn.sheet));
    CHECK(
        text.starts_with("state,place,at,part,wires,against,instrument,expected,low,high,unit,measured,"
                         "complaint,allowed,fuse,ground,note\n"));
    CsvReader reader(text, "a.csv");
    for (CsvRow row; reader.next(row);) CHECK(row.cells.size() == 17);
    CHECK(reader.problems().empty());
}

TEST_CASE("On paper limits are rounded outwards and drops are in millivolts") {
    const Made horn = made("horn");
    SheetRow row{SheetRow::Kind::voltage, "P3.1", "body", "voltmeter"};
    row.part = 0;
    row.expected = 12.345;
    row.low = 12.001;
    row.high = 12.999;
    CHECK(view::sheet_cells(horn.circuit, row).limits == "12.00 \u2026 13.00");
    row.low = 12.30;
    row.high = 12.40;
    CHECK(view::sheet_cells(horn.circuit, row).limits == "12.30 \u2026 12.40");
    row.kind = SheetRow::Kind::drop;
    row.expected = 0.0234;
    row.low = 0.0191;
    row.high = 0.0279;
    row.practice = Practice::contact;
    row.allowed_v = 0.3;
    CHECK(view::sheet_cells(horn.circuit, row).expected == "23 mV");
    CHECK(view::sheet_cells(horn.circuit, row).limits == "19 \u2026 28");
    CHECK(view::sheet_cells(horn.circuit, row).allowed == "300 mV");
    row.high = 0.31;
    CHECK(view::sheet_cells(horn.circuit, row).allowed == "(300 mV)");
    row.floating = true;
    CHECK(view::sheet_cells(horn.circuit, row).expected == "floating");
}

TEST_CASE("Limits that are a guide say so, next to what else there is to say about a row") {
    Made horn = made("horn");
    SheetRow row{SheetRow::Kind::drop, "P3.1", "P3.2", "voltmeter"};
    row.part = 0;
    row.low = 0.0191;
    row.high = 0.31;
    row.practice = Practice::contact;
    row.allowed_v = 0.3;
    const auto note = [&] {
        horn.sheet.states = {{0, {row}, {}}};
        return view::sheet_table(horn.circuit, horn.sheet).rows.front().back();
    };
    const std::string by_design = note();
    CHECK(!by_design.empty());
    CHECK(view::sheet_cells(horn.circuit, row).limits == "19 \u2026 310");
    row.bends = true;
    CHECK(view::sheet_cells(horn.circuit, row).limits == "about 19 \u2026 310");
    CHECK(note().ends_with("; " + by_design));
    row.high = 0.2;
    CHECK(!note().empty());
    CHECK(!note().ends_with(by_design));
}

TEST_CASE("How to come to a state is said in the order of its steps") {
    const Made step = made("entry-step");
    const auto steps = view::steps_text(step.circuit, *step.circuit.find_state("step-driving"));
    CHECK(steps == std::vector<std::string>{"S1 Ignition switch: run", "Engine speed: 2000 rpm",
                                            "Road speed: 50 km/h", "S20 Entry step switch: Automatic",
                                            "S23 Right front door switch of the entry step: Door closed",
                                            "M8 Entry step, 0 % in, 100 % out: 0 %", "wait 1 s"});
}

TEST_CASE("Paper repeats no point that reads the same, but every sign and every drop") {
    const Made step = made("entry-step");
    const auto repeats = view::repeats_in(step.sheet);
    int repeated = 0;
    for (std::size_t state = 0; state < step.sheet.states.size(); ++state) {
        const std::vector<SheetRow>& rows = step.sheet.states[state].rows;
        REQUIRE(repeats[state].size() == rows.size());
        for (std::size_t i = 0; i < rows.size(); ++i) {
            if (state == 0) CHECK(repeats[state][i] == -1);
            if (rows[i].kind != SheetRow::Kind::voltage) CHECK(repeats[state][i] == -1);
            if (repeats[state][i] < 0) continue;
            ++repeated;
            const auto& earlier = step.sheet.states[static_cast<std::size_t>(repeats[state][i])].rows;
            const auto same = std::ranges::find_if(earlier, [&](const SheetRow& row) {
                return row.kind == SheetRow::Kind::voltage && row.at == rows[i].at;
            });
            REQUIRE(same != earlier.end());
            CHECK(std::abs(same->expected - rows[i].expected) < view::kSameV);
        }
    }
    CHECK(repeated > 100);
}

TEST_CASE("Text and JSON tell the same sheet") {
    const Made horn = made("horn");
    const std::string text = view::sheet_text(horn.circuit, horn.sheet);
    const std::string json = view::sheet_json(horn.circuit, horn.sheet);
    for (const char* part : {"sounding", "P3.1", "F7"}) {
        CHECK(text.find(part) != std::string::npos);
        CHECK(json.find(part) != std::string::npos);
    }
    CHECK(text.find("nan") == std::string::npos);
    CHECK(json.find("nan") == std::string::npos);
}
