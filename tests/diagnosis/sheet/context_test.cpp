#include <catch2/catch.hpp>

#include <algorithm>

#include "engine/base/index.h"
#include "engine/diagnosis/sheet/sheet.h"
#include "tests/diagnosis/worked_circuits.h"

using namespace halfsplit;
using diagnosis::SheetRow;
using diagnosis::StateSheet;

namespace {

struct Made {
    model::Circuit circuit;
    diagnosis::Sheet sheet;

    const SheetRow& row(const char* state, const std::string& point) const {
        for (const StateSheet& each : sheet.states)
            if (circuit.states[at(each.state)].id == state)
                if (const auto row = std::ranges::find(each.rows, point, &SheetRow::at);
                    row != each.rows.end())
                    return *row;
        FAIL("no row at " << point << " in " << state);
        return sheet.states.front().rows.front();
    }
    std::string id(int part) const { return part < 0 ? "" : circuit.parts[at(part)].id; }
};

Made made(const char* name) {
    model::Circuit circuit = test::circuit_file(std::string("circuits/") + name + ".circuit.xml");
    auto sheet = diagnosis::make_sheet(circuit);
    REQUIRE(sheet);
    return {std::move(circuit), std::move(*sheet)};
}

}  // namespace

// Read off the circuit file: F7 feeds relay contact and horns, which end at E3; F8 feeds the coil, which ends
// at E5 through the button.
TEST_CASE("Each row says which fuse feeds it and at which ground point its current ends") {
    const Made horn = made("horn");
    for (const char* state : {"sounding", "ready", "key-off"}) {
        INFO(state);
        for (const auto& [point, fuse, ground] :
             {std::tuple("K2.30", "F7", "E3"), std::tuple("K2.87", "F7", "E3"),
              std::tuple("P3.2", "F7", "E3"), std::tuple("K2.85", "F8", "E5"), std::tuple("S5.1", "F8", "E5"),
              std::tuple("F2.2", "F2", "E5")}) {
            INFO(point);
            if (std::string(state) == "sounding" && std::string(point) == "K2.85") continue;
            CHECK(horn.id(horn.row(state, point).fuse) == fuse);
            CHECK(horn.id(horn.row(state, point).ground) == ground);
        }
    }
    // On the rail before F7 both grounds are in play and the horns carry nearly all of the current.
    CHECK(horn.id(horn.row("sounding", "F1.2").ground) == "E3");
    CHECK(horn.row("ready", "F1.2").ground == -1);
}

// Many circuits of the van share ground E5, where the step's switch is too; the unit's pull-ups feed the
// switch.
TEST_CASE("A switch on a shared ground is not taken to be fed from there") {
    const model::Circuit van = test::circuit_file("circuits/van-body.circuit.xml");
    const auto index = [&](const char* id) { return static_cast<int>(van.find_part(id) - van.parts.data()); };
    const int parked = static_cast<int>(van.find_state("step-parked") - van.states.data());
    const auto sheet = diagnosis::make_sheet(van, {{parked}, {index("S20"), index("A1")}});
    REQUIRE(sheet);
    for (const char* point : {"S20.1", "S20.2", "A1.6"}) {
        const auto row = std::ranges::find(sheet->states.front().rows, point, &SheetRow::at);
        REQUIRE(row != sheet->states.front().rows.end());
        INFO(point);
        CHECK(row->fuse == index("F26"));
        CHECK(row->ground == index("E5"));
    }
    CHECK(sheet->cautions.size() < diagnosis::cautions_for(van).size());
}

TEST_CASE("A point that nothing drives has no limits") {
    const Made horn = made("horn");
    const SheetRow& coil = horn.row("key-off", "K2.86");
    CHECK(coil.floating);
    CHECK(coil.low == 0);
    CHECK(coil.high == 0);
    CHECK_FALSE(horn.row("ready", "K2.86").floating);
    CHECK_FALSE(horn.row("key-off", "K2.87").floating);  // the horns hold it at ground
}

TEST_CASE("Signs say what is seen and heard in the state") {
    const Made horn = made("horn");
    CHECK(horn.row("sounding", "P3").sign == diagnosis::Sign::works);
    CHECK(horn.row("sounding", "P4").sign == diagnosis::Sign::works);
    CHECK(horn.row("ready", "P3").sign == diagnosis::Sign::none);
    CHECK(horn.row("ready", "P3").instrument == diagnosis::kLookAndListen);
    const Made step = made("entry-step");
    CHECK(step.row("step-moving", "M7").sign == diagnosis::Sign::works);
    CHECK(step.row("step-parked", "M7").sign == diagnosis::Sign::none);
}

TEST_CASE("A sheet says which relay its limits hang on") {
    const model::Circuit circuit = test::relay_near_pull_in("<state id='on' title='On'/>");
    const auto sheet = diagnosis::make_sheet(circuit);
    REQUIRE(sheet);
    REQUIRE(sheet->states.front().doubts.size() == 1);
    const diagnosis::SheetDoubt& doubt = sheet->states.front().doubts.front();
    const model::Part& relay = circuit.parts[at(doubt.part)];
    CHECK(relay.id == "K1");
    CHECK(relay.positions[at(doubt.now)].id == "energised");
    CHECK(relay.positions[at(doubt.then)].id == "at-rest");
    CHECK(doubt.chance > 0.05);
}

// A speed sender gives pulses at 50 km/h and none at a standstill; a turn signal blinks; a motor that runs
// into its end stop does not.
TEST_CASE("What goes to and fro by itself is said to, with the ends of its way") {
    const Made step = made("entry-step");
    const SheetRow& signal = step.row("step-driving", "A1.5");
    CHECK(signal.pulses);
    CHECK(signal.low < 1);
    CHECK(signal.high > 13);
    CHECK_FALSE(step.row("step-moving", "A1.5").pulses);
    CHECK_FALSE(step.row("step-moving", "M7.1").pulses);
    CHECK_FALSE(step.row("step-moving", "M7").pulses);
    const Made turn = made("turn-signals");
    for (const char* blinks : {"P14", "E50", "E54"}) CHECK(turn.row("indicators-left", blinks).pulses);
    for (const char* dark : {"P15", "E52", "E55", "P16"})
        CHECK_FALSE(turn.row("indicators-left", dark).pulses);
    CHECK(turn.row("indicators-left", "E50.1").pulses);
    CHECK(turn.row("indicators-left", "E50.2").pulses);
}

TEST_CASE("Cautions are those of the circuit's own parts") {
    const auto says = [](const model::Circuit& circuit, const char* words, const char* part) {
        return std::ranges::any_of(diagnosis::cautions_for(circuit), [&](const diagnosis::Caution& caution) {
            const bool names =
                std::string(part).empty() || std::ranges::any_of(caution.parts, [&](int index) {
                    return circuit.parts[at(index)].id == part;
                });
            return names && caution.text.find(words) != std::string::npos;
        });
    };
    const model::Circuit step = test::circuit_file("circuits/entry-step.circuit.xml");
    const model::Circuit horn = test::circuit_file("circuits/horn.circuit.xml");
    CHECK(says(step, "Hands", "M7"));
    CHECK(says(step, "control unit", ""));
    CHECK_FALSE(says(horn, "Hands", ""));
    CHECK_FALSE(says(horn, "control unit", ""));
    for (const model::Circuit* circuit : {&step, &horn}) {
        CHECK(says(*circuit, "airbag", ""));
        CHECK(says(*circuit, "never by a higher rating", ""));
        CHECK(diagnosis::cautions_for(*circuit).back().text.find("maker's current instructions") !=
              std::string::npos);
    }
}

TEST_CASE("A state that the circuit does not come to rest in is named") {
    const model::Circuit circuit =
        test::circuit_of(R"(<battery id="G1" plug="none"/><relay id="K1"/><ground-point id="E1"/>)",
                         R"(<wire id="W1" from="G1.+" to="K1.30" area-mm2="1" length-m="1"/>
           <wire id="W2" from="K1.87a" to="K1.86" area-mm2="1" length-m="1"/>
           <wire id="W3" from="K1.85" to="E1" area-mm2="1" length-m="1"/>
           <wire id="W4" from="G1.-" to="E1" area-mm2="16" length-m="0.3"/>)",
                         "", "<state id='buzz' title='It opens its own feed'/>");
    const auto sheet = diagnosis::make_sheet(circuit);
    REQUIRE_FALSE(sheet);
    CHECK(sheet.error().front().message.find("in state 'buzz'") != std::string::npos);
}
