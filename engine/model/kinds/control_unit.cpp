#include <charconv>
#include <optional>

#include "engine/model/driver_levels.h"
#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/laws_of.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

constexpr double kDriverOnOhm = 0.05;      // a power transistor of some amperes; from memory
constexpr double kBusOhm = 1000;           // what biases a bus wire at rest; from memory
constexpr double kSecondGroundOhm = 0.01;  // two ground pins meet on the circuit board; from memory
constexpr double kSenseOhm = 10000;        // a further supply pin is only watched; from memory
// Above brown-out by this share it starts again, so that it does not chatter.
constexpr double kRestartShare = 1.08;
constexpr double kMilli = 1000;
// A small controller starts in a tenth of a second, and its capacitor bridges some milliseconds; from memory.
constexpr double kUsualStartUpMs = 100;
constexpr double kUsualHoldUpMs = 2;

std::optional<int> first_pin(const Part& part, std::string_view pin_kind) {
    for (std::size_t i = 0; i < part.pins.size(); ++i)
        if (part.pins[i].kind == pin_kind) return static_cast<int>(i);
    return std::nullopt;
}

/// nullopt where the author does not give it. The reader has checked that it is a number.
std::optional<double> pin_number(const Pin& pin, std::string_view name) {
    const auto found = pin.words.find(name);
    if (found == pin.words.end()) return std::nullopt;
    double value = 0;
    const char* end = found->second.data() + found->second.size();
    const auto read = std::from_chars(found->second.data(), end, value);
    return read.ec == std::errc() && read.ptr == end ? std::optional(value) : std::nullopt;
}

struct Rails {
    std::optional<int> supply;
    std::optional<int> ground;
};

void add_rail(const Pin& pin, int index, const Rails& rails, std::vector<Element>& elements) {
    if (pin.kind == "supply" && rails.ground && index != rails.supply)
        elements.push_back({"supply-" + pin.id, index, *rails.ground, Resistance{kSenseOhm}});
    if (pin.kind == "ground" && index != rails.ground)
        elements.push_back({"ground-" + pin.id, index, *rails.ground, Resistance{kSecondGroundOhm}});
}

void add_pulls(const Pin& pin, int index, const Rails& rails, int powered, std::vector<Element>& elements) {
    const auto up_ohm = pin_number(pin, "pull-up-ohm");
    const auto down_ohm = pin_number(pin, "pull-down-ohm");
    const auto bias_v = pin_number(pin, "bias-v");
    if (bias_v && rails.ground)
        elements.push_back(
            {"bias-" + pin.id, index, *rails.ground, Source{*bias_v, up_ohm.value_or(kBusOhm)}, {powered}});
    else if (up_ohm && rails.supply)
        elements.push_back({"pull-up-" + pin.id, *rails.supply, index, Resistance{*up_ohm}});
    if (down_ohm && rails.ground)
        elements.push_back({"pull-down-" + pin.id, index, *rails.ground, Resistance{*down_ohm}});
}

void add_drivers(const Pin& pin, int index, const Rails& rails, std::vector<Element>& elements) {
    const bool half_bridge = pin.kind == "half-bridge";
    const Resistance on{pin_number(pin, "on-ohm").value_or(kDriverOnOhm)};
    const auto add = [&](std::string_view end, int from, int to, int level) {
        elements.push_back({.name = "driver-" + pin.id + (half_bridge ? std::string(end) : ""),
                            .from = from,
                            .to = to,
                            .law = on,
                            .conducts_in = {level},
                            .contact = true,
                            .driver = pin.id});
    };
    if ((half_bridge || pin.kind == "high-side") && rails.supply)
        add("-high", *rails.supply, index, kDriverOn);
    if ((half_bridge || pin.kind == "low-side") && rails.ground)
        add("-low", index, *rails.ground, half_bridge ? kDriverLow : kDriverOn);
}

/// Current through its own electronics, not voltage, says whether it lives: a dead board has voltage too.
Trigger power_trigger(const PartView& part, double electronics_ohm) {
    const double brown_out_a = part.number("brown-out-v") / electronics_ohm;
    return {.observed = Observed::element_current_a,
            .subject = "electronics",
            .rise = brown_out_a * kRestartShare,
            .fall = brown_out_a,
            .above = part.condition("powered"),
            .below = part.condition("unpowered"),
            .rise_delay_s = part.number("start-up-ms") / kMilli,
            .fall_delay_s = part.number("hold-up-ms") / kMilli,
            .also_above = part.condition("asleep")};
}

/// What it always draws, and what it draws besides while awake.
void add_electronics(const PartView& part, const Rails& rails, Electrics& electrics) {
    const double asleep_ma = part.number("asleep-ma");
    const double asleep_ohm = ohm_of_current(part.nominal_v(), asleep_ma);
    electrics.elements.push_back({"electronics", *rails.supply, *rails.ground, Resistance{asleep_ohm}});
    electrics.triggers.push_back(power_trigger(part, asleep_ohm));
    const double awake_ma = part.number("awake-ma") - asleep_ma;
    if (awake_ma > 0)
        electrics.elements.push_back({"processor",
                                      *rails.supply,
                                      *rails.ground,
                                      Resistance{ohm_of_current(part.nominal_v(), awake_ma)},
                                      {part.condition("unpowered"), part.condition("powered")}});
}

Electrics electrics(const PartView& part) {
    const Rails rails{first_pin(part.part(), "supply"), first_pin(part.part(), "ground")};
    Electrics electrics{.elements = {}, .triggers = {}};
    if (rails.supply && rails.ground) add_electronics(part, rails, electrics);
    int index = 0;
    for (const Pin& pin : part.part().pins) {
        add_rail(pin, index, rails, electrics.elements);
        add_pulls(pin, index, rails, part.condition("powered"), electrics.elements);
        add_drivers(pin, index, rails, electrics.elements);
        ++index;
    }
    return electrics;
}

std::vector<NumberSpec> pin_numbers() {
    return {
        {.name = "pull-up-ohm",
         .unit = "ohm",
         .low = 1,
         .high = 1e8,
         .text = "from the pin to the unit's first supply pin, or to bias-v"},
        {.name = "pull-down-ohm", .unit = "ohm", .low = 1, .high = 1e8, .text = "from the pin to ground"},
        {.name = "bias-v",
         .unit = "V",
         .low = 0,
         .high = 60,
         .text =
             "the pin rests at this voltage, behind pull-up-ohm (1000 ohm where left out), while the unit is "
             "powered; 2.5 V on a CAN wire"},
        {.name = "on-ohm",
         .unit = "ohm",
         .low = 1e-4,
         .high = 1e6,
         .text = "of a driver that is on; 0.05 ohm where left out"},
        {.name = "threshold-v",
         .unit = "V",
         .low = 0,
         .high = 60,
         .text = "of an input: above it the pin counts as high; half the nominal voltage where left out"},
        {.name = "limit-a",
         .unit = "A",
         .low = 1e-3,
         .high = 500,
         .text = "current at which a driver switches itself off"}};
}

std::vector<NumberSpec> numbers() {
    return {{.name = "awake-ma",
             .unit = "mA",
             .fallback = 50,
             .low = 0.01,
             .high = 1e5,
             .tolerance_percent = 20,
             .text = "what its electronics draw while awake"},
            {.name = "asleep-ma",
             .unit = "mA",
             .fallback = 2,
             .low = 0.01,
             .high = 1e5,
             .tolerance_percent = 50,
             .text = "and while asleep"},
            {.name = "brown-out-v",
             .unit = "V",
             .fallback = 6,
             .low = 0.5,
             .high = 50,
             .tolerance_percent = 5,
             .text = "supply voltage below which it resets"},
            {.name = "start-up-ms",
             .unit = "ms",
             .fallback = kUsualStartUpMs,
             .low = 1,
             .high = 1e5,
             .tolerance_percent = 20,
             .text = "from enough supply to its first action"},
            {.name = "hold-up-ms",
             .unit = "ms",
             .fallback = kUsualHoldUpMs,
             .low = 0.1,
             .high = 1e4,
             .tolerance_percent = 20,
             .text = "how long it works on without supply"}};
}

std::vector<FaultSpec> faults() {
    using What = ContactEffect::What;
    return {
        {.kind = "dead",
         .element = "",
         .effect = OpenElement{"electronics"},
         .value_unit = "",
         .rate = 0.1,
         .text = "Does nothing, though supply and ground at its plug are good under load. Check both before "
                 "condemning it."},
        {.kind = "driver-open",
         .element = "",
         .effect = ContactEffect{What::stuck_open},
         .value_unit = "",
         .rate = 0.1,
         .text = "One output never switches on; all else works."},
        {.kind = "driver-stuck-on",
         .element = "",
         .effect = ContactEffect{What::stuck_closed},
         .value_unit = "",
         .rate = 0.1,
         .text = "One output is always on: the load runs at all times, even asleep."},
        {.kind = "input-dead",
         .element = "",
         .effect = DeadInput{},
         .value_unit = "",
         .rate = 0.1,
         .text = "It does not see one of its inputs, though the voltage at the pin is right."},
        {.kind = "quiescent-drain",
         .element = "",
         .effect = SetNumber{"asleep-ma"},
         .value_unit = "mA",
         .value = 300,
         .value_low = 0.1,
         .value_high = 1e5,
         .rate = 0.2,
         .text = "It does not go to sleep, or leaks: it draws the value with the vehicle parked, and the "
                 "battery is flat in days."}};
}

}  // namespace

const PartKind& control_unit() {
    static const PartKind kind{
        .element = "control-unit",
        .letter = "A",
        .title = "Control unit",
        .text =
            "Electronics that read inputs and switch drivers by the state chart in its behaviour file. The "
            "first "
            "supply and the first ground pin feed it; a further supply is only watched, further grounds meet "
            "on "
            "its board. Without supply or ground all drivers are open.",
        .pin_policy = PinPolicy::authored,
        .pins = {},
        .pin_kinds = {"supply", "ground", "input", "high-side", "low-side", "half-bridge", "bus"},
        .pin_numbers = pin_numbers(),
        .numbers = numbers(),
        .words = {{.name = "behaviour",
                   .choices = {},
                   .fallback = "",
                   .text = "file name of its state chart, next to the circuit: NAME.scxml",
                   .required = true}},
        .conditions = {{"unpowered", "too little supply to work"},
                       {"powered", "supplied and working"},
                       {"asleep", "supplied, drawing next to nothing"}},
        .operation = Operation::triggered,
        .faults = faults(),
        .electrics = electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
