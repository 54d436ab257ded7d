#include <cmath>

#include "engine/base/constants.h"
#include "engine/model/kinds/common_faults.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/thermistor.h"
#include "engine/model/part_view.h"

namespace halfsplit::model {

namespace {

/// An active sender: its own supply current, and an open-collector output that pulls to minus in one
/// condition.
Electrics open_collector(const PartView& sender, const char* low_condition) {
    const double supply_ohm = sender.nominal_v() / (sender.number("supply-ma") / 1000);
    return {{{"supply", sender.pin("+"), sender.pin("-"), Resistance{supply_ohm}},
             {"output",
              sender.pin("o"),
              sender.pin("-"),
              Resistance{sender.number("low-ohm")},
              {sender.condition(low_condition)}}},
            {},
            0};
}

Electrics speed_electrics(const PartView& sender) {
    return open_collector(sender, "low");
}

Electrics hall_electrics(const PartView& sender) {
    Electrics result = open_collector(sender, "on");
    const int on = sender.condition("on");
    const int off = sender.condition("off");
    const double on_at = sender.number("on-at");
    const double off_at = sender.number("off-at");
    const std::string quantity(sender.word("quantity"));
    result.triggers = {on_at >= off_at ? Trigger{Observed::quantity, quantity, on_at, off_at, on, off}
                                       : Trigger{Observed::quantity, quantity, off_at, on_at, off, on}};
    return result;
}

Electrics temperature_electrics(const PartView& sender) {
    const double temperature = sender.quantity(sender.word("quantity"), kThermistorDegC);
    return {{{"thermistor", sender.pin("1"), sender.pin("2"),
              Resistance{ntc_ohm(sender.number("ohm-25"), sender.number("b-k"), temperature)}}},
            {},
            0};
}

std::vector<PinSpec> active_pins() {
    return {{"+", "supply"}, {"-", "ground"}, {"o", "output, open collector"}};
}
NumberSpec supply_ma() {
    return {"supply-ma", "mA", 8, 0.01, 1000, 30, "What it takes itself."};
}
NumberSpec low_ohm() {
    return {"low-ohm", "ohm", 40, 0.1, 10000, 30, "Its output to minus while it pulls low."};
}

std::vector<FaultSpec> active_faults(std::string_view idle, std::string_view pulling) {
    return {stuck_fault("no-signal", idle, 1, "Its output never pulls low."),
            stuck_fault("stuck", pulling, 0.5, "Its output stays low."),
            {"open", "", OpenElement{"supply"}, "", 0, 0, 0, 0.5, "Dead inside: takes no current."},
            {"short", "", ShortElement{"supply"}, "ohm", 1, 0.001, 1000, 0.2,
             "Its supply is short-circuited inside."}};
}

}  // namespace

const PartKind& speed_sender_kind() {
    static const PartKind kind{
        .element = "speed-sender",
        .letter = "B",
        .title = "Speed sender",
        .text = "Pulses by the distance travelled, on an open-collector output that needs a pull-up.",
        .pins = active_pins(),
        .numbers = {supply_ma(),
                    low_ohm(),
                    {"pulses-per-km", "1/km", 4000, 1, 1e6, 0, "Pulses a kilometre."}},
        .words = {{"quantity", {}, "", "The speed it feels.", true, "quantity"}},
        .conditions = {{"high", "output not pulled"}, {"low", "output pulled to minus"}},
        .operation = Operation::stated,
        .faults =
            [] {
                std::vector<FaultSpec> faults = active_faults("high", "low");
                faults.push_back({"wrong-rate", "", TimeOnly{}, "times", 0.5, 0.01, 100, 0.3,
                                  "Gives the wrong number of pulses."});
                return faults;
            }(),
        .electrics = &speed_electrics,
    };
    return kind;
}

const PartKind& hall_switch_kind() {
    static const PartKind kind{
        .element = "hall-switch",
        .letter = "B",
        .title = "Hall switch",
        .text = "A contactless switch: its open-collector output pulls low between two values of a quantity.",
        .pins = active_pins(),
        .numbers = {supply_ma(),
                    low_ohm(),
                    {"on-at", "", NAN, -1e9, 1e9, 5, "Pulls low from this value of the quantity on.", true},
                    {"off-at", "", NAN, -1e9, 1e9, 5, "Lets go at this value.", true}},
        .words = {{"quantity", {}, "", "The quantity it feels.", true, "quantity"}},
        .conditions = {{"off", "output not pulled"}, {"on", "output pulled to minus"}},
        .operation = Operation::triggered,
        .faults = active_faults("off", "on"),
        .electrics = &hall_electrics,
    };
    return kind;
}

const PartKind& temperature_sender_kind() {
    static const PartKind kind{
        .element = "temperature-sender",
        .letter = "B",
        .title = "Temperature sender",
        .text = "An NTC thermistor in a housing.",
        .pins = {{"1", "signal"}, {"2", "return"}},
        .numbers = {{"ohm-25", "ohm", 2500, 1, 1e6, 5, "Resistance at 25 degC."},
                    {"b-k", "K", 3800, 500, 10000, 1, "The B value."}},
        .words = {{"quantity", {}, "", "The temperature it feels.", true, "quantity"}},
        .faults = {open_fault("thermistor", 1, "Broken inside: reads as very cold."),
                   short_fault("thermistor", 0.3, "Short-circuited: reads as very hot."),
                   drift_fault("ohm-25", 2, 0.7, "Reads wrong."),
                   {"stuck", "", TimeOnly{}, "", 0, 0, 0, 0.2, "No longer follows the temperature."}},
        .electrics = &temperature_electrics,
    };
    return kind;
}

}  // namespace halfsplit::model
