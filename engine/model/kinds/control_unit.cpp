#include <cmath>

#include "engine/base/number.h"
#include "engine/model/kinds/common_faults.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model {

namespace {

/// A driver that nothing has switched on conducts in none of the unit's conditions.
constexpr int kNoCondition = -1;
/// A driver's on-resistance where the author does not say (from memory: tens of milliohm for body drivers).
constexpr double kDriverOhm = 0.05;

double word_number(const Pin& pin, const char* name, double otherwise) {
    const auto word = pin.words.find(name);
    return word == pin.words.end() ? otherwise : parse_number(word->second).value_or(otherwise);
}

int first_pin(const PartView& unit, std::string_view kind) {
    for (int pin = 0; pin < unit.pin_count(); ++pin)
        if (unit.part().pins[static_cast<std::size_t>(pin)].kind == kind) return pin;
    return -1;
}

void add_pull(Electrics& result, const Pin& pin, int index, int rail, const char* word) {
    if (const double ohm = word_number(pin, word, 0); ohm > 0 && rail >= 0)
        result.elements.push_back(
            {std::string(word).substr(0, std::string_view(word).size() - 4) + "-" + pin.id, rail, index,
             Resistance{ohm}});
}

void add_driver(Electrics& result, const Pin& pin, int index, int rail, const char* side) {
    if (rail < 0) return;
    result.elements.push_back({std::string(side) + "-" + pin.id,
                               rail,
                               index,
                               Resistance{word_number(pin, "on-ohm", kDriverOhm)},
                               {kNoCondition},
                               true});
}

Electrics electrics(const PartView& unit) {
    const int supply = first_pin(unit, "supply");
    const int ground = first_pin(unit, "ground");
    Electrics result;
    if (supply >= 0 && ground >= 0)
        result.elements.push_back(
            {"electronics", supply, ground, Resistance{unit.nominal_v() / (unit.number("awake-ma") / 1000)}});
    for (int index = 0; index < unit.pin_count(); ++index) {
        const Pin& pin = unit.part().pins[static_cast<std::size_t>(index)];
        add_pull(result, pin, index, supply, "pull-up-ohm");
        add_pull(result, pin, index, ground, "pull-down-ohm");
        if (pin.kind == "high-side" || pin.kind == "half-bridge")
            add_driver(result, pin, index, supply, "high");
        if (pin.kind == "low-side" || pin.kind == "half-bridge")
            add_driver(result, pin, index, ground, "low");
    }
    return result;
}

}  // namespace

const PartKind& control_unit_kind() {
    static const PartKind kind{
        .element = "control-unit",
        .letter = "A",
        .title = "Control unit",
        .text = "Electronics whose behaviour a state chart describes. Its drivers are open until that runs.",
        .pin_policy = PinPolicy::authored,
        .pin_kinds = {"supply", "ground", "input", "high-side", "low-side", "half-bridge", "bus"},
        .pin_numbers = {{"pull-up-ohm", "ohm", NAN, 1, 1e9, 20, "Input: resistor to the unit's supply."},
                        {"pull-down-ohm", "ohm", NAN, 1, 1e9, 20, "Input: resistor to the unit's ground."},
                        {"on-ohm", "ohm", NAN, 1e-4, 1000, 30,
                         "Driver: resistance while it is on; 0.05 ohm where nobody says."},
                        {"limit-a", "A", NAN, 0.001, 200, 20, "Driver: the current it limits itself to."},
                        {"bias-v", "V", NAN, 0, 30, 5, "Bus: the level it rests at."}},
        .numbers = {{"awake-ma", "mA", 50, 0.01, 10000, 30, "What it takes itself, awake."},
                    {"asleep-ma", "mA", 2, 0, 1000, 50, "What it takes asleep."},
                    {"brown-out-v", "V", 6, 0, 30, 10, "Below this supply it resets."}},
        .words = {{"behaviour", {}, "", "Its state chart, a .scxml file beside the circuit.", true}},
        .faults = {{"dead", "", OpenElement{"electronics"}, "", 0, 0, 0, 0.3,
                    "Does nothing and takes no current."},
                   {"driver-open", "", ContactEffect{ContactEffect::What::stuck_open}, "", 0, 0, 0, 0.3,
                    "This driver never switches on."},
                   {"driver-stuck-on", "", ContactEffect{ContactEffect::What::stuck_closed}, "", 0, 0, 0, 0.2,
                    "This driver is always on."},
                   {"input-dead", "", TimeOnly{}, "", 0, 0, 0, 0.2,
                    "One of its inputs does not see what is there."},
                   {"quiescent-drain", "", TimeOnly{}, "mA", 300, 1, 10000, 0.3,
                    "Does not fall asleep: flattens the battery."}},
        .electrics = &electrics,
    };
    return kind;
}

}  // namespace halfsplit::model
