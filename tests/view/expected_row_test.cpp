#include "ui/view/expected_row.h"

#include <catch2/catch.hpp>

#include <algorithm>

#include "engine/diagnosis/dictionary/make_dictionary.h"
#include "tests/support/circuit_text.h"
#include "ui/view/readings_table.h"

using namespace halfsplit;
using diagnosis::FilledRow;
using diagnosis::Finding;
using view::ExpectedRow;
using view::Fit;

namespace {

struct HornSounding {
    model::Circuit circuit = test::circuit_file("circuits/horn.circuit.xml");
    std::vector<ExpectedRow> rows;

    HornSounding() {
        diagnosis::SheetOptions options;
        options.states = {static_cast<int>(circuit.find_state("sounding") - circuit.states.data())};
        const auto sheet = diagnosis::make_sheet(circuit, options);
        REQUIRE(sheet);
        rows = view::expected_rows(circuit, sheet->states.front());
    }

    const ExpectedRow& at(const std::string& point, const std::string& against) const {
        const auto row = std::ranges::find_if(rows, [&](const ExpectedRow& each) {
            return each.cells.at == point && each.cells.against == against;
        });
        REQUIRE(row != rows.end());
        return *row;
    }
};

}  // namespace

TEST_CASE("A reading on a printed limit is as expected, and one step beyond is not") {
    const HornSounding horn;
    const ExpectedRow& row = horn.at("K2.87", "body");
    REQUIRE(row.has_limits);
    CHECK(view::fit_of(row, row.cells.low_v) == Fit::as_expected);
    CHECK(view::fit_of(row, row.cells.high_v) == Fit::as_expected);
    CHECK(view::fit_of(row, row.cells.low_v - 0.01) == Fit::too_low);
    CHECK(view::fit_of(row, row.cells.high_v + 0.01) == Fit::too_high);
    // Both stand on paper as they count here: the sheet's column limits.
    CHECK(row.cells.limits ==
          view::fixed(row.cells.low_v, 2) + " \u2026 " + view::fixed(row.cells.high_v, 2));
}

TEST_CASE("What a sound vehicle shows is as expected wherever it has limits or a sign") {
    const HornSounding horn;
    REQUIRE(horn.rows.size() > 20);
    for (const ExpectedRow& row : horn.rows) {
        INFO(row.cells.at << " " << row.cells.against);
        if (row.number) CHECK(view::fit_of(row, *row.number) == Fit::as_expected);
    }
}

TEST_CASE("A bare number beside a row in millivolts is in millivolts, and a unit beside it counts") {
    const HornSounding horn;
    const ExpectedRow& drop = horn.at("K2.30", "K2.87");
    REQUIRE(drop.cells.unit == "mV");
    CHECK(view::read_entry(horn.circuit, drop, "68")->value == Approx(0.068));
    CHECK(view::read_entry(horn.circuit, drop, "0,068 V")->value == Approx(0.068));
    CHECK(view::entry_text(horn.circuit, drop, 0.068) == "68");
    const ExpectedRow& volts = horn.at("K2.87", "body");
    CHECK(view::read_entry(horn.circuit, volts, "12,3")->value == Approx(12.3));
    CHECK(view::read_entry(horn.circuit, volts, "340 mV")->value == Approx(0.34));
    CHECK(view::read_entry(horn.circuit, volts, "12.3 A").error().find("a voltage such as 12.3") !=
          std::string::npos);
}

TEST_CASE("A horn is written down as sounding, faint or silent") {
    const HornSounding horn;
    const ExpectedRow& row = horn.at("P3", "");
    CHECK(row.choices == "sounds, faint or silent");
    CHECK(row.others == "faint or silent");
    const auto silent = view::read_entry(horn.circuit, row, "Silent");
    REQUIRE(silent);
    CHECK(view::fit_of(row, silent->value) == Fit::differs);
    CHECK(view::entry_text(horn.circuit, row, silent->value) == "silent");
}

TEST_CASE("Readings written as a sheet's CSV are read back as they were, in their order") {
    const HornSounding horn;
    std::vector<FilledRow> readings;
    for (auto row = horn.rows.rbegin(); row != horn.rows.rend(); ++row) {
        const bool is_sign = row->finding.kind == Finding::Kind::sign;
        readings.push_back(*view::read_entry(horn.circuit, *row, is_sign ? "no" : "0.1234 V"));
        readings.back().is_complaint = is_sign;
    }
    const std::string text = view::csv_text(view::readings_table(horn.circuit, readings));
    const auto read = diagnosis::read_readings(horn.circuit, text, "");
    REQUIRE(read);
    REQUIRE(read->size() == readings.size());
    for (std::size_t i = 0; i < readings.size(); ++i) {
        INFO(readings[i].finding.at);
        CHECK((*read)[i].state == readings[i].state);
        CHECK((*read)[i].finding == readings[i].finding);
        CHECK((*read)[i].value == readings[i].value);
        CHECK((*read)[i].is_complaint == readings[i].is_complaint);
    }
}

TEST_CASE("What no sheet proposes is expected by prediction, as the sheet has it where both say something") {
    const HornSounding horn;
    auto dictionary = diagnosis::make_dictionary(horn.circuit);
    REQUIRE(dictionary);
    const auto consultation = diagnosis::Consultation::on(horn.circuit, std::move(*dictionary));
    REQUIRE(consultation);
    int compared = 0;
    for (const ExpectedRow& row : horn.rows) {
        if (row.finding.kind != Finding::Kind::voltage || !row.has_limits) continue;
        const ExpectedRow other =
            view::expected_row(horn.circuit, consultation->get(), row.state, row.finding);
        if (!other.is_predicted) continue;  // a fuse's tips are further findings
        INFO(row.cells.at << " " << row.cells.against);
        constexpr double kLastDigitV = 0.01;  // the sheet has what the display shows
        CHECK(*other.number == Approx(*row.number).margin(kLastDigitV));
        ++compared;
    }
    CHECK(compared > 15);
    const Finding clamp{Finding::Kind::current, "W201", "", -1};
    const ExpectedRow current =
        view::expected_row(horn.circuit, consultation->get(), horn.rows[0].state, clamp);
    CHECK(current.cells.unit == "A");
    CHECK(view::expected_row(horn.circuit, nullptr, 0, clamp).is_predicted == false);
    CHECK(view::fit_of(view::expected_row(horn.circuit, nullptr, 0, clamp), 99) == Fit::not_judged);
}
