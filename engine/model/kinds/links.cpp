#include <array>
#include <cmath>

#include "engine/model/kinds/kinds.h"

namespace halfsplit::model {

namespace {

FaultSpec link(std::string_view kind, LinkEffect::What what, double rate, std::string_view text) {
    return {kind, "", LinkEffect{what}, "", 0, 0, 0, rate, text};
}

FaultSpec link_ohm(std::string_view kind, LinkEffect::What what, double ohm, double rate,
                   std::string_view text) {
    return {kind, "", LinkEffect{what}, "ohm", ohm, 0.001, 1e7, rate, text};
}

}  // namespace

const PartKind& wire_kind() {
    static const PartKind kind{
        .element = "wire",
        .letter = "W",
        .title = "Wire",
        .text =
            "A conductor from one point to another; its resistance comes from copper, area, length and the "
            "quantity `ambient`, unless `ohm` says it.",
        .plugged = false,
        .numbers = {{"area-mm2", "mm2", NAN, 0.05, 240, 0, "Cross-section."},
                    {"length-m", "m", NAN, 0.001, 100, 0, "Length."},
                    {"ohm", "ohm", NAN, 0, 1e7, 5,
                     "Resistance, instead of what area and length give; 0 for an ideal one."}},
        .words =
            {{"colour", {}, "", "Letters of IEC 60757, base colour first, then the tracer: RD, BKYE, GNYE."}},
        .faults =
            {link("open", LinkEffect::What::open, 1, "Broken."),
             link_ohm("high-resistance", LinkEffect::What::resistance, 1, 0.7,
                      "Strands broken or green with corrosion: passes little current."),
             link_ohm("short-to-ground", LinkEffect::What::to_body, 0.05, 0.5,
                      "Chafed through onto the body."),
             link_ohm("short-to-supply", LinkEffect::What::to_supply, 0.05, 0.1,
                      "Touches a permanently fed conductor."),
             link_ohm("short-between", LinkEffect::What::between_wires, 0.05, 0.1,
                      "Two wires touch: written short-between:W31+W32."),
             link(
                 "chafed", LinkEffect::What::chafed, 0.5,
                 "Fails only while a quantity is in a range: chafed:W31=open@vibration:0.5..1, or short@ …")},
    };
    return kind;
}

std::span<const FaultSpec> contact_faults() {
    static const std::array faults{
        link("open", LinkEffect::What::open, 0.7, "The contact does not touch."),
        link_ohm("high-resistance", LinkEffect::What::resistance, 2, 1.5,
                 "Corroded or spread contact: full voltage without load, little with."),
        link("backed-out", LinkEffect::What::open, 0.5,
             "The terminal has slipped out of its housing: the wire is live, the part is not."),
        link_ohm("wet", LinkEffect::What::wet, 1000, 0.2,
                 "Water in the plug leaks to the contacts beside it."),
        link("swapped", LinkEffect::What::swapped, 0.05,
             "Two terminals are in each other's place: written swapped:X20.3+X20.4."),
    };
    return faults;
}

std::span<const FaultSpec> plug_faults() {
    static const std::array faults{link("unplugged", LinkEffect::What::unplugged, 0.3, "The plug is off.")};
    return faults;
}

std::span<const NumberSpec> common_numbers() {
    static const std::array numbers{
        NumberSpec{
            "contact-ohm", "ohm", NAN, 0, 1e6, 100,
            "Resistance of each contact of its plug; 2 mohm where neither author nor kind says otherwise."},
        NumberSpec{"tolerance-percent", "%", NAN, 0, 100, 0,
                   "Takes the place of the tolerance of each of its numbers."},
    };
    return numbers;
}

std::span<const WordSpec> common_words() {
    static const std::array words{
        WordSpec{"title", {}, "", "What people call it."},
        WordSpec{"place", {}, "", "Where it is: the id of a place.", false, "place"},
        WordSpec{"plug", {}, "", "Name of its plug; none for a part with no plug."},
        WordSpec{"at", {}, "", "Hint for the diagram: column and row."},
    };
    return words;
}

}  // namespace halfsplit::model
