#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/laws_of.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

// A working load against none, where the author does not say; from memory.
constexpr double kUsualLoad = 1.5;
// Small motors of body electrics are at speed within tenths of a second; from memory.
constexpr double kUsualSpinUpMs = 60;

/// The stall current gives the whole resistance; shorted turns and tolerance change it as they change the
/// armature.
double winding_ohm(const PartView& part) {
    const double armature = part.number("armature-ohm");
    if (!part.has("stall-a")) return armature;
    return part.nominal_v() / part.number("stall-a") * (armature / part.authored("armature-ohm"));
}

/// By what it would burn standing blocked at nominal voltage, as its maker built it.
Warming warming(const PartView& part) {
    const double v = part.nominal_v();
    const double blocked_w =
        v * (part.has("stall-a") ? part.authored("stall-a") : v / part.authored("armature-ohm"));
    const double tau_s = part.number("cools-s");
    return copper_winding(part.number("blocked-warms-k-per-s") * tau_s, blocked_w, tau_s);
}

RunningMotor running(const PartView& part, double ohm) {
    const double idle_a = part.number("no-load-a");
    const double load_a = part.has("load-a") ? part.number("load-a") : idle_a * kUsualLoad;
    return heavier({.ohm = ohm, .breakaway_a = idle_a, .load_a = load_a, .load_v = part.nominal_v()},
                   part.number("load-factor"));
}

std::optional<Travel> own_travel(const PartView& part) {
    if (!part.has("travel-s")) return std::nullopt;
    return Travel{.travel_s = part.number("travel-s")};
}

Electrics electrics(const PartView& part) {
    const int running_in = part.condition("running");
    const int stalled_in = part.condition("stalled");
    const double ohm = winding_ohm(part);
    return {.elements = armature({.from = part.pin("1"),
                                  .to = part.pin("2"),
                                  .law = running(part, ohm),
                                  .spin_up_s = part.number("spin-up-ms") / 1000,
                                  .warming = warming(part)},
                                 {running_in}, {stalled_in}),
            .triggers = {},
            .travel = own_travel(part),
            .blocking = Blocking{.turning = running_in, .at_start = stalled_in, .at_end = stalled_in}};
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
         .text = "time for the whole travel, where it drives something from end to end"},
        {.name = "spin-up-ms",
         .unit = "ms",
         .fallback = kUsualSpinUpMs,
         .low = 0.1,
         .high = 1e5,
         .tolerance_percent = 20,
         .text = "time in which it reaches two thirds of its speed, without load"},
        // Window lifts and the like are built for seconds of work: blocked, they are too hot to touch in half
        // a minute; from memory.
        {.name = "blocked-warms-k-per-s",
         .unit = "K/s",
         .fallback = 3,
         .low = 0.001,
         .high = 100,
         .tolerance_percent = 30,
         .text =
             "how fast its winding warms up when it stands blocked at nominal voltage; warm, it draws less"},
        {.name = "cools-s",
         .unit = "s",
         .fallback = 120,
         .low = 1,
         .high = 1e5,
         .tolerance_percent = 30,
         .text = "time in which two thirds of that warmth are gone again"}};
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
