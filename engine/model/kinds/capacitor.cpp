#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

// A capacitor of the sort that sits in vehicles; from memory.
constexpr double kSeriesOhm = 0.05;
constexpr double kMicro = 1e-6;

/// In the steady state only its leakage counts.
Electrics electrics(const PartView& part) {
    return {.elements = {{.name = "leak",
                          .from = part.pin("1"),
                          .to = part.pin("2"),
                          .law = Resistance{part.number("leak-ohm")},
                          .store = Capacitance{.farad = part.number("microfarad") * kMicro,
                                               .series_ohm = kSeriesOhm}}},
            .triggers = {}};
}

}  // namespace

const PartKind& capacitor() {
    static const PartKind kind{
        .element = "capacitor",
        .letter = "C",
        .title = "Capacitor",
        .text = "Holds charge: smooths, suppresses, delays. Once charged it passes only its leakage.",
        .pins = {{"1", "positive side, where it has one"}, {"2", "negative side"}},
        .numbers = {{.name = "microfarad",
                     .unit = "uF",
                     .low = 1e-6,
                     .high = 1e7,
                     .tolerance_percent = 20,
                     .text = "its capacitance",
                     .required = true},
                    {.name = "leak-ohm",
                     .unit = "ohm",
                     .fallback = 1e7,
                     .low = 1,
                     .high = 1e10,
                     .text = "what leaks through it"}},
        .words = {},
        .conditions = {},
        .faults = {open_fault("leak",
                              {0.4, "A lead is off: no smoothing, no delay; nothing shows on a voltmeter."}),
                   short_fault("leak", {0.3, "Punched through, by the value: a short where it sits."}),
                   drift_fault("microfarad", 0.3,
                               {0.4,
                                "Dried out: its capacitance is down by the factor; shows only "
                                "in the course of time."})},
        .electrics = electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
