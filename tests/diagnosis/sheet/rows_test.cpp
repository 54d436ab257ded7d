#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/base/index.h"
#include "engine/diagnosis/sheet/sheet.h"
#include "engine/instruments/instrument.h"
#include "tests/diagnosis/worked_circuits.h"
#include "tests/support/sanitized.h"

using namespace halfsplit;
using diagnosis::Practice;
using diagnosis::SheetRow;
using diagnosis::StateSheet;

namespace {

const std::vector<std::string> kSmallCircuits{"blower",
                                              "brake-lights-trailer",
                                              "central-locking",
                                              "entry-step",
                                              "exterior-lights",
                                              "heated-seats",
                                              "horn",
                                              "interior-fade",
                                              "interior-light",
                                              "parasitic-drain",
                                              "power-window",
                                              "radiator-fan",
                                              "rear-window-heater",
                                              "sliding-door",
                                              "tail-deflector",
                                              "turn-signals",
                                              "windows-one-touch",
                                              "wipers"};

model::Circuit shipped(const std::string& name) {
    return test::circuit_file("circuits/" + name + ".circuit.xml");
}

diagnosis::Sheet sheet_of(const model::Circuit& circuit) {
    auto sheet = diagnosis::make_sheet(circuit);
    REQUIRE(sheet);
    return std::move(*sheet);
}

const StateSheet& state_of(const model::Circuit& circuit, const diagnosis::Sheet& sheet, const char* id) {
    const auto found = std::ranges::find_if(
        sheet.states, [&](const StateSheet& each) { return circuit.states[at(each.state)].id == id; });
    REQUIRE(found != sheet.states.end());
    return *found;
}

const SheetRow& row_at(const StateSheet& state, const std::string& point, const std::string& against) {
    const auto found = std::ranges::find_if(
        state.rows, [&](const SheetRow& row) { return row.at == point && row.against == against; });
    INFO(point << " against " << against);
    REQUIRE(found != state.rows.end());
    return *found;
}

bool is_metered(const SheetRow& row) {
    return row.kind != SheetRow::Kind::sign;
}

/// Last digit of a meter of 6000 steps, V.
double last_digit_v(double volts) {
    return std::abs(volts) <= 0.5999 ? 1e-4 : std::abs(volts) <= 5.999 ? 1e-3 : 1e-2;
}

simulation::Settled settled_in(const model::Circuit& circuit, int state) {
    auto settled = simulation::settle(circuit, {}, circuit.states[at(state)].steps);
    REQUIRE(settled);
    return std::move(*settled);
}

}  // namespace

// By hand: V = E R2 / (R1 + R2) = 8 V; contributions of 1 %, a third of 10 % and a third of 5 % add by their
// squares (JCGM 100, 5.1.2) to 3.859 %, so 7.691 and 8.309 V; the meter's 0.5 % and two digits of 0.01 V
// (common practice for workshop multimeters) make of it 7.632 and 8.371 V. Its 10 Mohm at 67 ohm take
// nothing.
TEST_CASE("A divider's row on the sheet is that worked by hand") {
    const model::Circuit circuit = test::divider("<state id='on' title='On'/>");
    const diagnosis::Sheet sheet = sheet_of(circuit);
    const SheetRow& row = row_at(sheet.states.front(), "R2.1", "body");
    CHECK(row.expected == Approx(8.0).margin(1e-9));
    CHECK(row.low == Approx(7.632).margin(0.006));
    CHECK(row.high == Approx(8.371).margin(0.006));
    CHECK(row.practice == Practice::none);
}

TEST_CASE("What the sheet expects is what the instrument shows there") {
    const std::vector<std::string> names =
        test::kSanitized
            ? std::vector<std::string>{"horn", "entry-step"}
            : std::vector<std::string>{"horn", "interior-light", "entry-step", "parasitic-drain"};
    int compared = 0;
    for (const std::string& name : names) {
        const model::Circuit circuit = shipped(name);
        for (const StateSheet& state : sheet_of(circuit).states) {
            const simulation::Settled settled = settled_in(circuit, state.state);
            // In a circuit that lives, half a second goes by until a meter just connected is read.
            const double digits = settled.living ? 3 : 1;
            for (const SheetRow& row : state.rows) {
                if (!is_metered(row)) continue;
                const auto shown = instruments::measure({circuit, settled}, row.instrument,
                                                        {row.at, row.against.empty() ? "body" : row.against});
                INFO(name << ", " << circuit.states[at(state.state)].id << ", " << row.at << " against "
                          << row.against);
                REQUIRE(shown);
                if (row.pulses) {
                    CHECK(shown->value >= row.low);
                    CHECK(shown->value <= row.high);
                    continue;
                }
                CHECK(row.expected ==
                      Approx(shown->value).margin(digits * last_digit_v(shown->value) + 1e-9));
                ++compared;
            }
        }
    }
    CHECK(compared > (test::kSanitized ? 100 : 1000));
}

// The limits are those of limits_in_state, which is held against drawn vehicles; the meter's part by hand.
TEST_CASE("Limits on the sheet are those of the circuit, wider by what the meter may be wrong") {
    const model::Circuit circuit = shipped("horn");
    for (const StateSheet& state : sheet_of(circuit).states) {
        const simulation::Settled settled = settled_in(circuit, state.state);
        const auto node = [&](const std::string& point) {
            return settled.network.point_nodes.find(point)->second;
        };
        for (const SheetRow& row : state.rows) {
            if (!is_metered(row) || row.floating || row.against.empty()) continue;
            const auto found =
                diagnosis::limits_in_state(circuit, settled, {{node(row.at), node(row.against)}});
            REQUIRE(found);
            const auto margin_v = [](double volts) {
                return 0.005 * std::abs(volts) + 2 * last_digit_v(volts);
            };
            const diagnosis::Limits& limits = found->limits.front();
            INFO(row.at << " against " << row.against);
            CHECK(row.low ==
                  Approx(limits.low_v - margin_v(limits.low_v)).margin(last_digit_v(limits.low_v)));
            CHECK(row.high ==
                  Approx(limits.high_v + margin_v(limits.high_v)).margin(last_digit_v(limits.high_v)));
        }
    }
}

// Ohm's law, the wires between what ideal copper has (1/58 ohm mm2/m, IEC 60028) and the most IEC 60228 class
// 5 lets them have (13.3 mohm/m at 1.5 mm2, 19.5 at 1 mm2), and the 2 mohm of a sound contact the file takes.
TEST_CASE("A run of wire drops what its copper and couplings make of the current") {
    const model::Circuit circuit = shipped("horn");
    const diagnosis::Sheet sheet = sheet_of(circuit);
    const StateSheet& sounding = state_of(circuit, sheet, "sounding");
    const simulation::Settled settled = settled_in(circuit, sounding.state);
    constexpr double kContactOhm = 0.002;
    const auto drop_v = [&](double ohm_per_m_at_1_5, double ohm_per_m_at_1) {
        return test::amperes_in(settled, "W203") * ((1.9 + 0.4) * ohm_per_m_at_1_5 + kContactOhm) +
               test::amperes_in(settled, "W205") * 0.2 * ohm_per_m_at_1;
    };
    const SheetRow& row = row_at(sounding, "K2.87", "P3.1");
    CHECK(row.kind == SheetRow::Kind::drop);
    CHECK(row.expected > drop_v(0.01149, 0.01724));
    CHECK(row.expected < drop_v(0.0133, 0.0195));
    CHECK(row.wires.size() == 3);
}

// Practice: 0.2 V for wires, 0.1 V more for the coupling on the way, 0.3 V for a contact, 0.1 V for a ground
// (common practice, see the header practice.h).
TEST_CASE("Under load fuses, contacts, runs of wire and grounds are held against practice") {
    const model::Circuit circuit = shipped("horn");
    const diagnosis::Sheet sheet = sheet_of(circuit);
    const StateSheet& sounding = state_of(circuit, sheet, "sounding");
    const auto check = [&](const char* point, const char* against, Practice practice, double allowed_v) {
        const SheetRow& row = row_at(sounding, point, against);
        CHECK(row.practice == practice);
        CHECK(row.allowed_v == Approx(allowed_v));
    };
    check("F7", "", Practice::fuse, 0.125);
    check("K2.30", "K2.87", Practice::contact, 0.3);
    check("K2.87", "P3.1", Practice::wire, 0.3);
    check("P3.2", "body", Practice::ground, 0.2);
    check("E3", "body", Practice::ground, 0.1);
    CHECK(row_at(sounding, "F7", "").instrument == "fuse-millivolts");
    for (const char* id : {"key-off", "key-off-pressed", "ready"})
        for (const SheetRow& row : state_of(circuit, sheet, id).rows) CHECK(row.kind != SheetRow::Kind::drop);
}

TEST_CASE("Half the current of a 24 V system may drop twice the volts") {
    CHECK(diagnosis::allowed_drop_v(Practice::wire, 0, 24) == Approx(0.4));
    CHECK(diagnosis::allowed_drop_v(Practice::none, 3, 12) == 0);
    CHECK(diagnosis::allowed_drop_v(Practice::wire, 2, 12) == Approx(0.4));
}

TEST_CASE("Rows come place by place, and in a place from supply to ground") {
    for (const std::string& name : kSmallCircuits) {
        const model::Circuit circuit = shipped(name);
        for (const StateSheet& state : sheet_of(circuit).states) {
            int place = -1;
            for (const SheetRow& row : state.rows) {
                if (!is_metered(row)) continue;
                INFO(name << " " << row.at);
                CHECK(row.place >= place);
                place = row.place;
            }
        }
    }
    const model::Circuit circuit = shipped("horn");
    const diagnosis::Sheet sheet = sheet_of(circuit);
    const std::vector<SheetRow>& rows = state_of(circuit, sheet, "sounding").rows;
    const auto position = [&](const char* point) { return std::ranges::find(rows, point, &SheetRow::at); };
    CHECK(position("F7") < position("K2.30"));
    CHECK(position("K2.30") < position("K2.87"));
    CHECK(position("K2.87") < position("P3.1"));
    CHECK(position("P3.1") < position("P3.2"));
}

TEST_CASE("A sheet has each row once, none inside the harness, and fits on paper") {
    constexpr int kOnPaper = 90;
    for (const std::string& name : kSmallCircuits) {
        const model::Circuit circuit = shipped(name);
        const diagnosis::Sheet sheet = sheet_of(circuit);
        CHECK(sheet.states.size() == circuit.states.size());
        for (const StateSheet& state : sheet.states) {
            INFO(name << ", " << circuit.states[at(state.state)].id);
            std::set<std::pair<std::string, std::string>> seen;
            int metered = 0;
            for (const SheetRow& row : state.rows) {
                CHECK(seen.emplace(row.at, row.against).second);
                CHECK(circuit.parts[at(row.part)].kind->element != "splice");
                if (!is_metered(row)) continue;
                ++metered;
                if (row.floating) continue;
                CHECK(row.low <= row.expected);
                CHECK(row.high >= row.expected);
            }
            CHECK(metered > 5);
            CHECK(metered <= kOnPaper);
        }
    }
}

TEST_CASE("Only the parts asked for are on a sheet of some parts") {
    const model::Circuit circuit = shipped("horn");
    const int horn = static_cast<int>(circuit.find_part("P3") - circuit.parts.data());
    const auto sheet = diagnosis::make_sheet(circuit, {{3}, {horn}});
    REQUIRE(sheet);
    REQUIRE(sheet->states.size() == 1);
    CHECK(sheet->states.front().rows.size() > 1);
    for (const SheetRow& row : sheet->states.front().rows) CHECK(row.part == horn);
}
