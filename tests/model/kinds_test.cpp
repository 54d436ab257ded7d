#include "engine/model/kinds/kinds.h"

#include <array>
#include <catch2/catch.hpp>

#include "engine/model/kinds/laws_of.h"
#include "tests/support/law_current.h"
#include "tests/support/part_builder.h"

/// Defaults and formulas against figures from outside; the source stands at each check.
namespace halfsplit::model {
namespace {

using test::element_named;
using test::expand;
using test::law_of;
using test::PartBuilder;

double fallback(const PartKind& kind, std::string_view name) {
    for (const NumberSpec& spec : kind.numbers)
        if (spec.name == name) return spec.fallback;
    throw std::logic_error("no number " + std::string(name));
}

double fuse_ohm(double rating_a) {
    return law_of<Resistance>(expand(PartBuilder(kinds::fuse()).number("rating-a", rating_a).part()), "link")
        .ohm;
}

/// Power a filament takes at a voltage.
double filament_w(const Filament& law, double v) {
    return v * test::current_a(law, v);
}

}  // namespace

TEST_CASE("A battery is as full, as stiff and as flat as workshop tables have it") {
    const Electrics full = expand(PartBuilder(kinds::battery()).part());
    const Cell cell = law_of<Cell>(full, "cell");
    // Flooded battery, full, rested: 12.65 V (yic-electronics.com car-battery page); sources scatter by 0.1
    // V.
    CHECK(cell.emf_v == Approx(12.65).margin(0.1));
    // Common practice: 2 to 5 milliohm new, above 10 milliohm worn out.
    CHECK(cell.ohm >= 0.002);
    CHECK(cell.ohm <= 0.010);
    // Empty: 11.6 V by the rounded workshop rule, 11.89 V by the table above.
    CHECK(kinds::battery().faults.front().value >= 11.6);
    CHECK(kinds::battery().faults.front().value <= 11.89);
}

TEST_CASE("An alternator charges within the usual band and feeds nothing while it stands") {
    const Part part = PartBuilder(kinds::alternator()).word("driven-by", "engine-speed").part();
    const Electrics electrics = expand(part);
    // Common practice: 13.7 to 14.7 V with the engine running.
    CHECK(law_of<RegulatedSource>(electrics, "output").emf_v >= 13.7);
    CHECK(law_of<RegulatedSource>(electrics, "output").emf_v <= 14.7);
    CHECK(element_named(electrics, "output").conducts_in == std::vector{1});
    CHECK(element_named(electrics, "excitation").conducts_in == std::vector{0});
    REQUIRE(electrics.triggers.size() == 1);
    CHECK(electrics.triggers.front().subject == "engine-speed");
    CHECK(electrics.triggers.front().rise > electrics.triggers.front().fall);
    CHECK(expand(PartBuilder(kinds::alternator()).part()).triggers.empty());
}

TEST_CASE("A fuse has the cold resistance of its rating") {
    // From memory: one maker's series of standard blade fuses, cold, in milliohm.
    struct Row {
        double rating_a;
        double milliohm;
    };
    for (const Row& row : {Row{5, 17.85}, Row{7.5, 10.91}, Row{10, 7.70}, Row{15, 4.80}, Row{20, 3.38},
                           Row{25, 2.52}, Row{30, 1.97}}) {
        INFO(row.rating_a << " A");
        CHECK(1000 * fuse_ohm(row.rating_a) == Approx(row.milliohm).epsilon(0.10));
    }
    // A maker's figure for a 30 A / 58 V mini blade, as quoted in a public design script.
    CHECK(1000 * fuse_ohm(30) == Approx(1.85).epsilon(0.10));
}

TEST_CASE("A fuse drops less at its rating than DIN 72581-3 allows") {
    // Form E: 125 mV at 20 A, 100 mV at larger ratings (noiasca.rothschopf.net extract of DIN 72581-3).
    CHECK(20 * fuse_ohm(20) <= 0.125);
    for (const double rating_a : {30.0, 40.0, 50.0, 60.0, 70.0, 80.0})
        CHECK(rating_a * fuse_ohm(rating_a) <= 0.100);
}

TEST_CASE("A fuse whose resistance is given keeps it and a blown one does not conduct") {
    const Electrics electrics =
        expand(PartBuilder(kinds::fuse()).number("rating-a", 15).number("ohm", 0.02).part());
    CHECK(law_of<Resistance>(electrics, "link").ohm == 0.02);
    CHECK(element_named(electrics, "link").conducts_in == std::vector{0});
    CHECK(kinds::fuse().conditions.at(0).id == "intact");
}

TEST_CASE("A relay lies within what data sheets of plug-in relays print") {
    // OEN series 78 and 79, a Panasonic 30 A lamp relay and a plug-in relay with resistor: coils 65 to 300
    // ohm, pull-in at most 7 to 8 V, drop-out at least 0.5 to 1.2 V, at most 100 mV at 10 A, 10/5 to 10/10
    // ms.
    const PartKind& relay = kinds::relay();
    CHECK(fallback(relay, "coil-ohm") >= 65);
    CHECK(fallback(relay, "coil-ohm") <= 300);
    CHECK(fallback(relay, "pull-in-v") <= 8);
    CHECK(fallback(relay, "drop-out-v") >= 0.5);
    CHECK(fallback(relay, "drop-out-v") < fallback(relay, "pull-in-v"));
    CHECK(10 * fallback(relay, "switch-ohm") <= 0.100);
    CHECK(fallback(relay, "pull-in-ms") <= 10);
    CHECK(fallback(relay, "drop-out-ms") <= 10);
}

TEST_CASE("A relay joins 30 to 87 when energised and to 87a at rest") {
    // Pins of ISO 7588 relays as explained by delcon.fi (what do 30, 85, 86, 87 mean on a relay).
    const Part part = PartBuilder(kinds::relay()).part();
    const Quantities world;
    const PartView view(part, part.numbers, world, 12);
    const Electrics electrics = expand(part);
    CHECK(element_named(electrics, "30-87").conducts_in == std::vector{view.condition("energised")});
    CHECK(element_named(electrics, "30-87a").conducts_in == std::vector{view.condition("at-rest")});
    CHECK(element_named(electrics, "30-87a").to == view.pin("87a"));
    REQUIRE(electrics.triggers.size() == 1);
    CHECK(electrics.triggers.front().subject == "coil");
    CHECK(electrics.triggers.front().above == view.condition("energised"));
}

TEST_CASE("A make relay has no contact 87a") {
    const Electrics electrics = expand(PartBuilder(kinds::relay()).word("contacts", "make").part());
    for (const Element& element : electrics.elements) CHECK(element.name != "30-87a");
}

TEST_CASE("A relay with a diode passes nothing beside its coil while 86 is the positive end") {
    // 86 must be the positive end with a built-in diode (rodandcustommagazine.com, basic electrical relays).
    const Part part = PartBuilder(kinds::relay()).word("suppression", "diode").part();
    const Electrics electrics = expand(part);
    const Element& diode = element_named(electrics, "suppressor");
    const Quantities world;
    const PartView view(part, part.numbers, world, 12);
    CHECK(diode.from == view.pin("85"));
    CHECK(diode.to == view.pin("86"));
    CHECK(std::abs(test::current_a(std::get<Junction>(diode.law), -12)) < 1e-3);
    CHECK(test::current_a(std::get<Junction>(diode.law), 0.75) == Approx(1));
}

TEST_CASE("A stop lamp's filament takes the watts of its type sheet at the test voltage") {
    // Directive 97/24/EC, sheet P21/5W: 21 W filament 25 W +- 6 %, 5 W filament 6 W +- 10 %, both at 13.5 V.
    const Electrics electrics = expand(PartBuilder(kinds::twin_lamp()).part());
    CHECK(filament_w(law_of<Filament>(electrics, "filament-a"), 13.5) == Approx(25).epsilon(0.06));
    CHECK(filament_w(law_of<Filament>(electrics, "filament-b"), 13.5) == Approx(6).epsilon(0.10));
    const Electrics lamp = expand(PartBuilder(kinds::lamp()).number("rated-w", 21).part());
    CHECK(filament_w(law_of<Filament>(lamp, "filament"), 13.5) == Approx(25).epsilon(0.06));
    CHECK(filament_w(law_of<Filament>(lamp, "filament"), 12) == Approx(21).epsilon(1e-9));
}

TEST_CASE("A cold lamp draws ten to fifteen times its rated current") {
    // Installation guide, eapc-lheureux-44.fr: 10 to 15 times for some milliseconds; vehicle bulb about a
    // tenth of its hot resistance, kfz-tech.de.
    const Filament law =
        law_of<Filament>(expand(PartBuilder(kinds::lamp()).number("rated-w", 21).part()), "filament");
    const double cold_ohm = 1e-6 / test::current_a(law, 1e-6);
    const double inrush = 12 / cold_ohm / test::current_a(law, 12);
    CHECK(inrush >= Approx(10));
    CHECK(inrush <= 15);
}

TEST_CASE("A diode drops its forward voltage at its rated current") {
    const Part part = PartBuilder(kinds::diode()).part();
    const Electrics electrics = expand(part);
    const Junction junction = law_of<Junction>(electrics, "junction");
    const double bulk_v = 1 * law_of<Resistance>(electrics, "bulk").ohm;
    CHECK(test::current_a(junction, 0.75 - bulk_v) == Approx(1));
    // A silicon diode drops about 0.7 V at ordinary currents (Kuphaldt, Lessons in Electric Circuits, vol.
    // III).
    CHECK(test::current_a(junction, 0.70) > 0.1);
    CHECK(test::current_a(junction, 0.60) < 0.1);
    // Emission coefficients of silicon rectifiers lie between 1 and 2 (from memory).
    CHECK(junction.slope_v >= kinds::thermal_voltage_v(20));
    CHECK(junction.slope_v <= 2 * kinds::thermal_voltage_v(20));
}

TEST_CASE("The thermal voltage is 25.85 mV at 300 K") {
    // From memory; the value in every semiconductor text.
    CHECK(kinds::thermal_voltage_v(300 - 273.15) == Approx(0.02585).epsilon(0.001));
}

TEST_CASE("An LED lamp draws its rated current at its rated voltage and next to nothing at half of it") {
    const Electrics electrics = expand(PartBuilder(kinds::led_lamp()).part());
    CHECK(electrics.inner_nodes == 1);
    CHECK(test::current_a(law_of<Junction>(electrics, "string"), 6) == Approx(0.05));
    CHECK(test::current_a(law_of<Resistance>(electrics, "series"), 13.5 - 6) == Approx(0.05));
    // Common practice: an LED is dark well below its forward voltage.
    CHECK(test::current_a(law_of<Junction>(electrics, "string"), 3) < 1e-6);
}

TEST_CASE("An NTC follows the B-parameter equation") {
    // Worked by hand: 2500 ohm, B 3800 K at 0 degC: 3800 (1/273.15 - 1/298.15) = 1.16651, e^1.16651 = 3.2108.
    CHECK(kinds::ntc_ohm(2500, 3800, 0) == Approx(8027).epsilon(1e-3));
    CHECK(kinds::ntc_ohm(2500, 3800, 25) == Approx(2500));
    const Part part = PartBuilder(kinds::temperature_sender()).word("quantity", "coolant").part();
    const Electrics cold = expand(part, {{"coolant", 0}});
    CHECK(law_of<Resistance>(cold, "ntc").ohm == Approx(8027).epsilon(1e-3));
}

TEST_CASE(
    "A thermistor feels the ambient temperature unless it names another and 20 degC where there is none") {
    const Part part = PartBuilder(kinds::ptc_thermistor()).number("ohm-25", 1000).part();
    // Worked by hand: 0.8 % for each kelvin of the value at 25 degC.
    CHECK(law_of<Resistance>(expand(part, {{"ambient", 75}}), "resistance").ohm == Approx(1400));
    CHECK(law_of<Resistance>(expand(part), "resistance").ohm == Approx(960));
}

TEST_CASE("A blocked motor draws what its armature lets through and a loaded one its load current") {
    const Electrics electrics = expand(PartBuilder(kinds::motor()).number("load-a", 5).part());
    const RunningMotor running = law_of<RunningMotor>(electrics, "armature");
    CHECK(test::current_a(running, 12) == Approx(5));
    const auto& stalled = electrics.elements.at(1);
    CHECK(stalled.name == "armature");
    // Window lift: at least 14.5 A blocked at 12 to 14.5 V (vehicle service data), so at most about 0.83
    // to 1.0 ohm; 5 +- 1 A running.
    CHECK(std::get<Resistance>(stalled.law).ohm <= 1.0);
    CHECK(test::current_a(std::get<Resistance>(stalled.law), 13.2) >= 14.5);
    // A motor switched on from rest first draws close to its stall current (maker's reply,
    // forum.pololu.com/t/4771): until it turns, only its resistance counts.
    const double creeping_v = running.breakaway_a * running.ohm / 2;
    CHECK(test::current_a(running, creeping_v) == Approx(creeping_v / running.ohm));
}

TEST_CASE("A motor whose stall current is given draws that and half its turns draw twice that") {
    Part part = PartBuilder(kinds::motor()).number("stall-a", 13).part();
    const Quantities world;
    const PartView whole(part, part.numbers, world, 12);
    const auto stalled_a = [](const Electrics& electrics) {
        return test::current_a(std::get<Resistance>(electrics.elements.at(1).law), 12);
    };
    CHECK(stalled_a(part.kind->electrics(whole)) == Approx(13));
    std::vector<double> shorted = part.numbers;
    shorted.front() *= 0.5;
    CHECK(part.kind->numbers.front().name == "armature-ohm");
    CHECK(stalled_a(part.kind->electrics(PartView(part, shorted, {}, 12))) == Approx(26));
}

TEST_CASE("A stiff motor draws more whether or not its load was given and never more than blocked") {
    const auto load_a = [](PartBuilder builder, double factor) {
        return test::current_a(
            law_of<RunningMotor>(expand(builder.number("load-factor", factor).part()), "armature"), 12);
    };
    const PartBuilder unsaid(kinds::motor());
    const PartBuilder given = PartBuilder(kinds::motor()).number("load-a", 4);
    CHECK(load_a(unsaid, 2) == Approx(2 * load_a(unsaid, 1)));
    CHECK(load_a(given, 2) == Approx(8));
    CHECK(load_a(given, 20) < 12 / 0.9);
}

TEST_CASE("A lock actuator draws about six amperes at its end stop") {
    // One measured sample, next.gr door-lock motor: winding about 2 ohm, so about 6 A blocked at 12 V.
    const Electrics electrics = expand(PartBuilder(kinds::lock_actuator()).part());
    const Element& blocked = electrics.elements.at(1);
    CHECK(blocked.name == "armature");
    CHECK(test::current_a(std::get<Resistance>(blocked.law), 12) == Approx(6).epsilon(0.1));
}

TEST_CASE("An ignition switch feeds 75 in accessory and run, 15 in run and start, 50 in start alone") {
    // Terminals of DIN 72552 (kfz-tech.de list); common practice that 75 is dropped while cranking.
    const Electrics electrics = expand(PartBuilder(kinds::ignition_switch()).part());
    CHECK(element_named(electrics, "30-75").conducts_in == std::vector{1, 2});
    CHECK(element_named(electrics, "30-15").conducts_in == std::vector{2, 3});
    CHECK(element_named(electrics, "30-50").conducts_in == std::vector{3});
}

TEST_CASE("A switch has one contact for each pair of pins, closed in every position that joins them") {
    const Part part = PartBuilder(kinds::multi_position_switch())
                          .pins({{"1", "", {}, {}}, {"2", "", {}, {}}, {"3", "", {}, {}}})
                          .positions({{"off", "", false, {}, {}},
                                      {"low", "", false, {{0, 1}}, {}},
                                      {"high", "", false, {{1, 0}, {0, 2}}, {}}})
                          .part();
    const Electrics electrics = expand(part);
    REQUIRE(electrics.elements.size() == 2);
    CHECK(element_named(electrics, "1-2").conducts_in == std::vector{1, 2});
    CHECK(element_named(electrics, "1-3").conducts_in == std::vector{2});
    CHECK(element_named(electrics, "1-2").contact);
}

TEST_CASE("A push button that rests closed opens when it is pressed") {
    const auto closed_in = [](const char* rest) {
        const Electrics electrics = expand(PartBuilder(kinds::push_button()).word("rest", rest).part());
        return element_named(electrics, "1-2").conducts_in;
    };
    CHECK(closed_in("open") == std::vector{1});
    CHECK(closed_in("closed") == std::vector{0});
    CHECK(kinds::push_button().conditions.at(1).id == "pressed");
}

TEST_CASE("A thermo-switch closes on heat or on cold, whichever its two temperatures say") {
    const auto trigger = [](double closes, double opens) {
        return expand(PartBuilder(kinds::thermo_switch())
                          .word("quantity", "coolant")
                          .number("closes-at-degc", closes)
                          .number("opens-at-degc", opens)
                          .part())
            .triggers.front();
    };
    const Trigger fan = trigger(92, 87);
    CHECK(fan.rise == 92);
    CHECK(fan.fall == 87);
    CHECK(fan.above == 1);
    const Trigger frost = trigger(3, 7);
    CHECK(frost.rise == 7);
    CHECK(frost.fall == 3);
    CHECK(frost.above == 0);
    CHECK(frost.below == 1);
}

TEST_CASE("A hall switch turns on in the direction its two values say") {
    const auto trigger = [](double on, double off) {
        return expand(PartBuilder(kinds::hall_switch()).number("on-at", on).number("off-at", off).part())
            .triggers.front();
    };
    CHECK(trigger(90, 80).above == 1);
    CHECK(trigger(10, 20).below == 1);
    CHECK(trigger(10, 20).rise == 20);
}

TEST_CASE("A variable resistor's wiper divides its track and stays on it") {
    const auto track_ohm = [](double percent) {
        const Part part =
            PartBuilder(kinds::variable_resistor()).number("ohm", 100).word("quantity", "level").part();
        const Electrics electrics = expand(part, {{"level", percent}});
        return std::pair(law_of<Resistance>(electrics, "track-a").ohm,
                         law_of<Resistance>(electrics, "track-b").ohm);
    };
    // Worked by hand: a quarter of 100 ohm, and 0.2 ohm left at each end.
    CHECK(track_ohm(25).first == Approx(25.2));
    CHECK(track_ohm(25).second == Approx(75.2));
    CHECK(track_ohm(900).second == Approx(0.2));
}

TEST_CASE("A resistor pack has the sections it is given") {
    const auto sections = [](const PartBuilder& builder) { return expand(builder.part()).elements.size(); };
    CHECK(sections(PartBuilder(kinds::resistor_pack())) == 1);
    CHECK(sections(PartBuilder(kinds::resistor_pack()).number("ohm-2", 1).number("ohm-3", 1)) == 3);
}

TEST_CASE("A heater has the resistance of its rating") {
    // Joule's law: 120 W at 12 V is 10 A, so 1.2 ohm.
    const Electrics electrics = expand(PartBuilder(kinds::heater()).number("rated-w", 120).part());
    CHECK(law_of<Resistance>(electrics, "grid").ohm == Approx(1.2));
}

TEST_CASE("A coupling joins the two sides of each contact and a ground point its wires to the body") {
    const Electrics coupling = expand(PartBuilder(kinds::coupling()).part());
    REQUIRE(coupling.elements.size() == 3);
    CHECK(element_named(coupling, "3").from == 4);
    CHECK(element_named(coupling, "3").to == 5);
    CHECK(law_of<Resistance>(coupling, "3").ohm == kinds::coupling().contact_ohm);
    CHECK(element_named(expand(PartBuilder(kinds::ground_point()).part()), "joint").to == kBodyTerminal);
    CHECK(expand(PartBuilder(kinds::splice()).part()).elements.empty());
}

}  // namespace halfsplit::model
