#include <algorithm>

#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

// A working load against none, where the author does not say; from memory.
constexpr double kUsualLoad = 1.5;
// The most a running motor may draw, of its stall current: closer to it, it would hardly turn.
constexpr double kMostOfStall = 0.95;

/// The stall current gives the whole resistance; shorted turns and tolerance change it as they change the
/// armature.
double winding_ohm(const PartView& part) {
    const double armature = part.number("armature-ohm");
    if (!part.has("stall-a")) return armature;
    double authored = armature;
    for (std::size_t i = 0; i < part.part().kind->numbers.size(); ++i)
        if (part.part().kind->numbers[i].name == "armature-ohm") authored = part.part().numbers.at(i);
    return part.nominal_v() / part.number("stall-a") * (armature / authored);
}

RunningMotor running(const PartView& part, double ohm) {
    const double most = kMostOfStall * part.nominal_v() / ohm;
    const double factor = part.number("load-factor");
    const double idle = part.number("no-load-a");
    const double load =
        std::min(most, factor * (part.has("load-a") ? part.number("load-a") : idle * kUsualLoad));
    return {
        .ohm = ohm, .breakaway_a = std::min(factor * idle, load), .load_a = load, .load_v = part.nominal_v()};
}

Electrics electrics(const PartView& part) {
    const int a = part.pin("1");
    const int b = part.pin("2");
    const double ohm = winding_ohm(part);
    return {.elements = {{"armature", a, b, running(part, ohm), {part.condition("running")}},
                         {"armature", a, b, Resistance{ohm}, {part.condition("stalled")}}},
            .triggers = {}};
}

std::vector<NumberSpec> numbers() {
    return {
        {.name = "armature-ohm",
         .unit = "ohm",
         .fallback = 0.9,
         .low = 0.001,
         .high = 1000,
         .tolerance_percent = 10,
         .text = "of winding and brushes; blocked, the motor draws the voltage over this"},
        {.name = "no-load-a",
         .unit = "A",
         .fallback = 1,
         .low = 0.001,
         .high = 500,
         .tolerance_percent = 20,
         .text = "current that its own friction takes; below it the motor does not start"},
        {.name = "load-a",
         .unit = "A",
         .low = 0.001,
         .high = 1000,
         .tolerance_percent = 20,
         .text = "current in ordinary work at nominal voltage; left out, one and a half times no-load-a"},
        {.name = "stall-a",
         .unit = "A",
         .low = 0.01,
         .high = 5000,
         .tolerance_percent = 0,
         .text = "current when blocked at nominal voltage; where given it counts instead of armature-ohm"},
        {.name = "load-factor",
         .unit = "",
         .fallback = 1,
         .low = 0.1,
         .high = 20,
         .text = "how much harder than in ordinary work it has to turn"},
        {.name = "travel-s",
         .unit = "s",
         .low = 0.01,
         .high = 3600,
         .text = "time for the whole travel, where it drives something from end to end"}};
}

std::vector<FaultSpec> faults() {
    return {
        open_fault("armature", {0.6,
                                "Torn winding or brushes that no longer touch: voltage at the plug, no "
                                "current."}),
        scale_fault("short-turns", "armature-ohm", 0.5,
                    {0.2, "Turns are shorted: weak, hot, and the current is too high."}),
        series_fault("worn-brushes", "armature", 1.5,
                     {1, "Brushes at their end: slow or dead, helped by a knock; the current is too low."}),
        force_fault("seized", "stalled",
                    {0.7,
                     "Blocked: it hums or stays silent and draws its stall current "
                     "until the fuse or the breaker opens."}),
        scale_fault("stiff", "load-factor", 2,
                    {0.8, "Dry or bent mechanics: slow, and the current is high by the factor."})};
}

}  // namespace

const PartKind& motor() {
    static const PartKind kind{
        .element = "motor",
        .letter = "M",
        .title = "Motor",
        .text =
            "A brushed motor with permanent magnets; swapping its leads turns it round. Running, its "
            "back-EMF holds "
            "the current down to what the load needs; blocked, only its resistance does.",
        .pins = {{"1", "supply side when running forwards"}, {"2", "ground side when running forwards"}},
        .numbers = numbers(),
        .words = {},
        .conditions = {{"running", "free to turn"}, {"stalled", "blocked"}},
        .operation = Operation::stated,
        .faults = faults(),
        .electrics = electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
