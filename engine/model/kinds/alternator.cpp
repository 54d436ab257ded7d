#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

// The field winding through the standing regulator, which is what lights the charge lamp; from memory.
constexpr double kExcitationOhm = 10;
// Exciter diodes and brushes while it charges; from memory.
constexpr double kExciterOhm = 1;
// Speed falls a little below cut-in before the field collapses; keeps the charge lamp from flickering.
constexpr double kDropOutShare = 0.9;

// Poles passing a dead diode at a middling engine speed; from memory.
constexpr double kRippleHz = 300;

/// One diode of six does not conduct: for a part of each turn the output is lower by `ripple_v`.
void add_ripple(const PartView& part, double ripple_v, RegulatedSource output, Electrics& electrics) {
    const int dips = part.condition("dipping");
    output.emf_v -= ripple_v;
    electrics.elements.push_back({"output", part.pin("B+"), part.pin("B-"), output, {dips}});
    electrics.oscillator = Oscillator{.on = part.condition("charging"), .off = dips, .rate_hz = kRippleHz};
}

Electrics electrics(const PartView& part) {
    const int plus = part.pin("B+");
    const int minus = part.pin("B-");
    const int lamp = part.pin("D+");
    const int stopped = part.condition("stopped");
    const int charging = part.condition("charging");
    const int dipping = part.condition("dipping");
    const double regulated_v = part.number("regulated-v");
    const RegulatedSource output{
        .emf_v = regulated_v, .ohm = part.number("internal-ohm"), .max_a = part.number("max-a")};
    Electrics electrics{
        .elements =
            {{"output", plus, minus, output, {charging}},
             {"excitation", lamp, minus, Resistance{kExcitationOhm}, {stopped}},
             {"exciter", lamp, minus, Source{.emf_v = regulated_v, .ohm = kExciterOhm}, {charging, dipping}}},
        .triggers = {}};
    if (const auto ripple_v = part.ailment("ripple")) add_ripple(part, *ripple_v, output, electrics);
    const double cut_in = part.number("cut-in-rpm");
    if (!part.word("driven-by").empty())
        electrics.triggers.push_back({.observed = Observed::quantity,
                                      .subject = std::string(part.word("driven-by")),
                                      .rise = cut_in,
                                      .fall = cut_in * kDropOutShare,
                                      .above = charging,
                                      .below = stopped});
    return electrics;
}

std::vector<NumberSpec> numbers() {
    return {
        {.name = "regulated-v",
         .unit = "V",
         .fallback = 14.2,
         .low = 1,
         .high = 60,
         .tolerance_percent = 2,
         .text = "what the regulator holds at B+; 13.7 to 14.7 V is usual in a 12 V vehicle"},
        {.name = "internal-ohm",
         .unit = "ohm",
         .fallback = 0.004,  // the regulator holds B+ within tenths of a volt up to its limit; from memory
         .low = 1e-4,
         .high = 10,
         .tolerance_percent = 20,
         .text = "what the voltage falls by for each ampere before it is at its limit"},
        {.name = "max-a",
         .unit = "A",
         .fallback = 90,
         .low = 1,
         .high = 1000,
         .text = "the most it can give; beyond that the voltage falls to what the battery holds"},
        {.name = "cut-in-rpm",
         .unit = "rpm",
         .fallback = 900,
         .low = 1,
         .high = 1e5,
         .text = "value of the quantity named by driven-by at which it begins to charge"}};
}

std::vector<FaultSpec> faults() {
    return {
        force_fault(
            "no-output", "stopped",
            {1,
             "It never charges: worn brushes, a dead regulator or a torn field. The charge lamp stays "
             "on, the battery goes flat on the road."}),
        {.kind = "overcharging",
         .element = "",
         .effect = SetNumber{"regulated-v"},
         .value_unit = "V",
         .value = 16.5,
         .value_low = 1,
         .value_high = 60,
         .rate = 0.3,
         .text =
             "The regulator lets the voltage climb to the value: lamps burn out young, the battery gasses."},
        series_fault("high-resistance", "output", 0.1,
                     {0.4, "Burnt rectifier or B+ joint: the voltage sags as soon as much is drawn."}),
        ailment_fault(
            "ripple", {"V", 1, 0.01, 20},
            {0.3,
             "A broken rectifier diode: alternating voltage on the supply, lamps shimmer, radios whine."
             " The mean voltage hardly shows it; the recorder does."})};
}

}  // namespace

const PartKind& alternator() {
    static const PartKind kind{
        .element = "alternator",
        .letter = "G",
        .title = "Alternator",
        .text =
            "A generator with rectifier and regulator. It holds its voltage up to its largest current and "
            "takes "
            "none back. At rest D+ sinks the charge lamp's current, charging it lifts D+ and the lamp goes "
            "out.",
        .pins = {{"B+", "output"},
                 {"B-", "housing and negative; wire it to ground"},
                 {"D+", "charge lamp; may stay unwired"}},
        .contact_ohm = 0.0005,  // bolted, not plugged; from memory
        .numbers = numbers(),
        .words =
            {{.name = "driven-by",
              .choices = {},
              .fallback = "",
              .text =
                  "the quantity that turns it, such as engine speed; without it the state says whether it "
                  "charges",
              .refers_to = "quantity"}},
        .conditions = {{"stopped", "stands still or too slow to charge"},
                       {"charging", "turns and charges"},
                       {"dipping", "a dead diode's turn, while it charges"}},
        .operation = Operation::stated,
        .faults = faults(),
        .electrics = electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
