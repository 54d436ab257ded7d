#include "engine/model/kinds/common_faults.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model {

namespace {

/// The field winding as the charge lamp sees it while the rotor stands (from memory: a few ohm to some tens).
constexpr double kFieldOhm = 10;
/// The exciter diodes' way to D+ while charging (from memory).
constexpr double kExciterOhm = 1;

Electrics electrics(const PartView& alternator) {
    const int plus = alternator.pin("B+");
    const int minus = alternator.pin("B-");
    const int exciter = alternator.pin("D+");
    const int stopped = alternator.condition("stopped");
    const int charging = alternator.condition("charging");
    const double regulated_v = alternator.number("regulated-v");
    Electrics result;
    result.elements = {
        {"output",
         plus,
         minus,
         RegulatedSource{regulated_v, alternator.number("internal-ohm"), alternator.number("max-a")},
         {charging}},
        {"excitation", exciter, minus, Resistance{kFieldOhm}, {stopped}},
        {"exciter", exciter, minus, Source{regulated_v, kExciterOhm}, {charging}},
    };
    if (!alternator.word("driven-by").empty()) {
        const double cut_in_rpm = alternator.number("cut-in-rpm");
        result.triggers = {{Observed::quantity, std::string(alternator.word("driven-by")), cut_in_rpm,
                            cut_in_rpm * 0.9, charging, stopped}};
    }
    return result;
}

}  // namespace

const PartKind& alternator_kind() {
    static const PartKind kind{
        .element = "alternator",
        .letter = "G",
        .title = "Alternator",
        .text =
            "Three-phase generator with rectifier and regulator: holds its voltage up to its largest "
            "current, never takes current.",
        .pins = {{"B+", "output"}, {"B-", "housing, on the engine"}, {"D+", "exciter and charge lamp"}},
        .numbers =
            {
                {"regulated-v", "V", 14.2, 5, 32, 2,
                 "Regulated voltage: 13.7 to 14.7 V in a 12 V vehicle is usual."},
                {"internal-ohm", "ohm", 0.02, 1e-3, 10, 20, "How much the voltage gives way per ampere."},
                {"max-a", "A", 90, 1, 1000, 5, "Largest current."},
                {"cut-in-rpm", "rpm", 900, 1, 20000, 5,
                 "Charges from this value of the quantity `driven-by` on."},
            },
        .words = {{"driven-by",
                   {},
                   "",
                   "The quantity that turns it (engine speed). Without one a state sets it to charging.",
                   false,
                   "quantity"}},
        .conditions = {{"stopped", "gives nothing"}, {"charging", "feeds the vehicle"}},
        .operation = Operation::stated,
        .faults =
            {
                stuck_fault("no-output", "stopped", 1,
                            "No charge: the charge lamp stays on, the battery runs down."),
                {"overcharging", "", SetNumber{"regulated-v"}, "V", 16.5, 5, 40, 0.3,
                 "Regulator failed: bulbs burn out, the battery boils."},
                {"high-resistance", "", SeriesElement{"output"}, "ohm", 0.1, 0.001, 100, 0.5,
                 "Worn brushes or a bad diode: holds its voltage only with little load."},
                {"ripple", "", TimeOnly{}, "V", 1, 0.1, 10, 0.3, "A failed diode lets the voltage pulse."},
            },
        .electrics = &electrics,
    };
    return kind;
}

}  // namespace halfsplit::model
