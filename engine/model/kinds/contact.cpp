#include <array>

#include "engine/model/link_faults.h"
#include "engine/model/part_kind.h"

namespace halfsplit::model {
using What = LinkEffect::What;

// Rates are relative and from memory: contacts together fail more than anything else, each one seldom.
std::span<const FaultSpec> contact_faults() {
    static const std::array faults{
        link_fault("open", What::open, 0.2,
                   "The terminal is broken or spread: the harness side reads right, the part gets nothing."),
        resistive_fault(
            "high-resistance", What::resistance, 2, 0.4,
            "Corroded or slack: volts are lost across the contact under load. Back-probe both sides."),
        link_fault("backed-out", What::open, 0.2,
                   "The terminal has slipped back in its housing: looks plugged, touches nothing."),
        resistive_fault(
            "wet", What::wet, 1000, 0.2,
            "Water or green growth in the plug: this contact leaks to its neighbours, by the value."),
        link_fault(
            "swapped", What::swapped, 0.05,
            "Two terminals sit in each other's chambers (where: X20.3+X20.4), usually after a repair.")};
    return faults;
}

std::span<const FaultSpec> plug_faults() {
    static const std::array faults{link_fault("unplugged", What::unplugged, 0.3,
                                              "The plug is off or not latched: all its contacts are open.")};
    return faults;
}

std::span<const NumberSpec> common_numbers() {
    static const std::array numbers{
        NumberSpec{.name = "contact-ohm",
                   .unit = "ohm",
                   .low = 0,
                   .high = 100,
                   .text = "of each contact of its plug; left out, what is usual for its kind"},
        NumberSpec{.name = "tolerance-percent",
                   .unit = "%",
                   .low = 0,
                   .high = 100,
                   .text = "of all its values alike; left out, each has what is usual for its kind"}};
    return numbers;
}

std::span<const WordSpec> common_words() {
    static const std::array words{
        WordSpec{.name = "title", .choices = {}, .fallback = "", .text = "what people call it"},
        WordSpec{.name = "place", .choices = {}, .fallback = "", .text = "where it is", .refers_to = "place"},
        WordSpec{.name = "plug",
                 .choices = {},
                 .fallback = "",
                 .text = "the plug's own name, or none where nothing can be unplugged"},
        WordSpec{.name = "at",
                 .choices = {},
                 .fallback = "",
                 .text = "column and row in the diagram: at=\"3 2\""}};
    return words;
}

}  // namespace halfsplit::model
