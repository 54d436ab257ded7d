#include <algorithm>

#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/laws_of.h"
#include "engine/model/kinds/specs_of.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

// A small silicon rectifier across the coil: 0.75 V at 1 A, emission coefficient near 2; from memory.
constexpr double kSuppressorForwardV = 0.75;
constexpr double kSuppressorAtA = 1;
constexpr double kSuppressorSlopeV = 0.05;

void add_suppressor(const PartView& part, std::vector<Element>& elements) {
    const int out = part.pin("85");
    const int in = part.pin("86");
    if (part.word("suppression") == "resistor")
        elements.push_back({"suppressor", in, out, Resistance{part.number("suppression-ohm")}});
    if (part.word("suppression") == "diode")
        elements.push_back({"suppressor", out, in,
                            junction_through(kSuppressorForwardV, kSuppressorAtA, kSuppressorSlopeV)});
}

/// Tolerances may bring the two voltages together, but never past each other.
Electrics electrics(const PartView& part) {
    const double pull_in_v = part.number("pull-in-v");
    const int at_rest = part.condition("at-rest");
    const int energised = part.condition("energised");
    const Resistance contact{part.number("switch-ohm")};
    std::vector<Element> elements{{.name = "coil",
                                   .from = part.pin("86"),
                                   .to = part.pin("85"),
                                   .law = Resistance{part.number("coil-ohm")},
                                   .store = coil(part.number("coil-mh"), part.number("coil-ohm")),
                                   .change = coil_warming(part)},
                                  {"30-87", part.pin("30"), part.pin("87"), contact, {energised}, true}};
    if (part.word("contacts") == "changeover")
        elements.push_back({"30-87a", part.pin("30"), part.pin("87a"), contact, {at_rest}, true});
    add_suppressor(part, elements);
    const double late_s = part.ailment("sluggish").value_or(0) / 1000;
    return {.elements = std::move(elements),
            .triggers = {{.observed = Observed::element_voltage_v,
                          .subject = "coil",
                          .rise = pull_in_v,
                          .fall = std::min(part.number("drop-out-v"), pull_in_v),
                          .above = energised,
                          .below = at_rest,
                          .rise_delay_s = part.number("pull-in-ms") / 1000 + late_s,
                          .fall_delay_s = part.number("drop-out-ms") / 1000 + late_s}}};
}

std::vector<NumberSpec> coil_numbers() {
    return {
        {.name = "coil-ohm",
         .unit = "ohm",
         .fallback = 85,
         .low = 1,
         .high = 1e5,
         .tolerance_percent = 10,
         .text = "of the coil at 20 degC; 65 to 100 ohm for a power relay, up to 300 ohm for a small one"},
        {.name = "pull-in-v",
         .unit = "V",
         .fallback = 7,
         .low = 0.1,
         .high = 60,
         .tolerance_percent = 10,
         .text = "coil voltage at which it pulls in; must be above drop-out-v"},
        {.name = "drop-out-v",
         .unit = "V",
         .fallback = 2.5,
         .low = 0.05,
         .high = 59,
         .tolerance_percent = 10,
         .text = "coil voltage at which it lets go again"},
        {.name = "coil-mh",
         .unit = "mH",
         .fallback = 300,
         .low = 0.1,
         .high = 1e5,
         .tolerance_percent = 20,
         .text = "inductance of the coil, which kicks when it is switched off"},
        coil_warms(),
        {.name = "suppression-ohm",
         .unit = "ohm",
         .fallback = 680,
         .low = 1,
         .high = 1e6,
         .tolerance_percent = 5,
         .text = "the resistor across the coil, where suppression is resistor"}};
}

std::vector<NumberSpec> numbers() {
    std::vector<NumberSpec> all = coil_numbers();
    all.push_back(switch_ohm(0.005, "of a closed contact"));
    all.push_back({.name = "pull-in-ms",
                   .unit = "ms",
                   .fallback = 10,
                   .low = 0.1,
                   .high = 1000,
                   .tolerance_percent = 20,
                   .text = "from enough current in the coil to closed contact"});
    all.push_back({.name = "drop-out-ms",
                   .unit = "ms",
                   .fallback = 6,
                   .low = 0.1,
                   .high = 1000,
                   .tolerance_percent = 20,
                   .text = "from too little current in the coil to open contact"});
    return all;
}

std::vector<WordSpec> words() {
    return {
        {.name = "contacts",
         .choices = {"make", "changeover"},
         .fallback = "changeover",
         .text = "make: 30-87 only; changeover: 30-87a at rest as well"},
        {.name = "suppression",
         .choices = {"none", "resistor", "diode"},
         .fallback = "resistor",
         .text =
             "what lies across the coil against its voltage kick; with a diode 86 must be the positive end"}};
}

std::vector<FaultSpec> faults() {
    return {
        force_fault("stuck-open", "at-rest",
                    {0.6,
                     "The coil clicks or hums, but the armature or the contact does not follow: 87 stays "
                     "dead."}),
        force_fault("stuck-closed", "energised",
                    {0.4,
                     "The contacts are welded: the load stays on with the coil dead and even with the coil's "
                     "fuse pulled."}),
        series_fault("contact-resistance", "30-87", 0.5,
                     {1,
                      "Burnt contact: 87 reads full voltage without load and too little with it. Measure the "
                      "drop from 30 to 87 under load."}),
        open_fault("coil", {0.3, "Torn coil: voltage across 85 and 86, no click, no current.", "coil"}),
        scale_fault("short-turns", "coil-ohm", 0.4,
                    {0.1,
                     "Turns are shorted: the coil draws too much, gets hot and may stress whatever drives "
                     "it.",
                     "coil"}),
        ailment_fault("sluggish", {"ms", 200, 1, 10000},
                      {0.1, "Sticky armature: it pulls in or drops out late, by the value."})};
}

}  // namespace

const PartKind& relay() {
    static const PartKind kind{
        .element = "relay",
        .letter = "K",
        .title = "Relay",
        .text =
            "A plug-in relay: a small current through 86-85 moves a contact that carries a large one. It "
            "pulls in "
            "at one coil voltage and lets go at a lower one.",
        .pins = {{"30", "common of the contact"},
                 {"85", "coil, ground end"},
                 {"86", "coil, supply end"},
                 {"87", "joined to 30 when energised"},
                 {"87a", "joined to 30 at rest, in a changeover relay"}},
        .numbers = numbers(),
        .words = words(),
        .conditions = {{"at-rest", "coil dead or too weak"}, {"energised", "pulled in"}},
        .operation = Operation::triggered,
        .faults = faults(),
        .electrics = electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
