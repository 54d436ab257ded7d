#include <cmath>

#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/laws_of.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

// Come to rest above this share of its rating, a fuse has opened: 135 % opens within half an hour (ISO 8820-3
// as quoted at noiasca.rothschopf.net), 110 % never does.
constexpr double kOpensAt = 1.3;
// No current is below this, so what has opened stays open.
constexpr double kNever = -1;

// The melting integral of a blade fuse by its rating, 0.75 A^2 s (rating / A)^2.2, a fit to one maker's
// series from 5 to 30 A (from memory); its strip follows with the time that integral takes at the current it
// just stands.
constexpr double kMeltingAt1A = 0.75;
constexpr double kMeltingExponent = 2.2;
// The large body and a bolted link have that much more metal around the strip; 135 % lies within 60 s to
// half an hour and 200 % within 2 s to 60 s (DIN 72581-3 as quoted at noiasca.rothschopf.net).
constexpr double kLargeHeatS = 30;
// Blocked window motors trip theirs in 4 to 40 s (service data of window lifts).
constexpr double kBimetalHeatS = 20;

double blade_heat_s(double rating_a) {
    const double hold_a = kOpensAt * rating_a;
    return kMeltingAt1A * std::pow(rating_a, kMeltingExponent) / (hold_a * hold_a);
}

struct Heat {
    double time_s = 0;
    double cooled = 0;
};

/// All three protect by opening the one element between their pins, for good as long as the circuit is left
/// to itself.
Electrics link_between(const PartView& part, double ohm, const Heat& heat, std::string_view closed,
                       std::string_view open) {
    const int closed_in = part.condition(closed);
    return {.elements = {{"link", part.pin("1"), part.pin("2"), Resistance{ohm}, {closed_in}}},
            .triggers = {{.observed = Observed::element_current_a,
                          .subject = "link",
                          .rise = kOpensAt * part.number("rating-a"),
                          .fall = kNever,
                          .above = part.condition(open),
                          .below = closed_in,
                          .heat_s = heat.time_s,
                          .cooled = heat.cooled}}};
}

Electrics fuse_electrics(const PartView& part) {
    const double ohm = part.has("ohm") ? part.number("ohm") : blade_fuse_ohm(part.number("rating-a"));
    const bool large = part.word("size") == "large";
    const double heat_s = large ? kLargeHeatS : blade_heat_s(part.number("rating-a"));
    return link_between(part, ohm, {heat_s}, "intact", "blown");
}

Electrics breaker_electrics(const PartView& part) {
    const double cooled = std::exp(-part.number("reset-s") / kBimetalHeatS);
    return link_between(part, part.number("ohm"), {kBimetalHeatS, cooled}, "closed", "tripped");
}

Electrics fusible_link_electrics(const PartView& part) {
    return link_between(part, part.number("ohm"), {kLargeHeatS}, "intact", "blown");
}

std::vector<PinSpec> pins() {
    return {{"1", "supply side"}, {"2", "load side"}};
}

NumberSpec rating() {
    return {.name = "rating-a",
            .unit = "A",
            .low = 0.5,
            .high = 500,
            .text = "current it carries for good; steady load should stay under about three quarters of it",
            .required = true};
}

NumberSpec ohm(double fallback, std::string_view text) {
    return {.name = "ohm",
            .unit = "ohm",
            .fallback = fallback,
            .low = 1e-5,
            .high = 10,
            .tolerance_percent = 15,
            .text = text};
}

constexpr double kByRating = std::numeric_limits<double>::quiet_NaN();

std::vector<ConditionSpec> fuse_conditions() {
    return {{"intact", "conducts"}, {"blown", "has melted and conducts nothing"}};
}

std::vector<FaultSpec> fuse_faults(std::string_view blown_as) {
    return {
        force_fault(
            "blown", blown_as,
            {3,
             "Open: supply on one side, none on the other, and all loads behind it dead. Find out why "
             "before fitting a new one."}),
        wrong_rating_fault(30, {0.3,
                                "Another rating than the diagram's is fitted (the value). Too small it blows "
                                "in ordinary use, too large the wire is the fuse."}),
        series_fault("high-resistance", "link", 0.5,
                     {0.5, "Cracked or corroded: reads good without load, drops volts with it."})};
}

}  // namespace

const PartKind& fuse() {
    static const PartKind kind{
        .element = "fuse",
        .letter = "F",
        .title = "Fuse",
        .text =
            "A blade fuse. Its small resistance gives the millivolts by which a current through it can be "
            "seen "
            "without pulling it.",
        .pins = pins(),
        .contact_ohm = 0.001,  // blade in its clip; from memory
        .numbers = {rating(),
                    ohm(kByRating, "cold; left out, it follows from the rating: 0.0076 ohm for 10 A")},
        .words = {{.name = "size",
                   .choices = {"mini", "standard", "large"},
                   .fallback = "standard",
                   .text = "body size, for finding a spare"}},
        .conditions = fuse_conditions(),
        .operation = Operation::stated,
        .faults = fuse_faults("blown"),
        .electrics = fuse_electrics};
    return kind;
}

const PartKind& circuit_breaker() {
    static const PartKind kind{.element = "circuit-breaker",
                               .letter = "F",
                               .title = "Circuit breaker",
                               .text =
                                   "A bimetal that opens when it gets hot and closes again once it has "
                                   "cooled, as in many window and seat "
                                   "circuits.",
                               .pins = pins(),
                               .contact_ohm = 0.001,
                               .numbers = {rating(),
                                           ohm(0.005, "of bimetal and contact"),
                                           {.name = "reset-s",
                                            .unit = "s",
                                            .fallback = 10,
                                            .low = 0.1,
                                            .high = 3600,
                                            .text = "how long it stays open before it closes again"}},
                               .words = {},
                               .conditions = {{"closed", "conducts"}, {"tripped", "has opened by heat"}},
                               .operation = Operation::stated,
                               .faults = fuse_faults("tripped"),
                               .electrics = breaker_electrics};
    return kind;
}

const PartKind& fusible_link() {
    static const PartKind kind{.element = "fusible-link",
                               .letter = "F",
                               .title = "Fusible link",
                               .text =
                                   "A piece of thin wire or a bolted strip near the battery that melts "
                                   "before the main cable does. Slower "
                                   "than a fuse.",
                               .pins = pins(),
                               .contact_ohm = 0.0005,  // bolted; from memory
                               .numbers = {rating(), ohm(0.001, "cold")},
                               .words = {},
                               .conditions = fuse_conditions(),
                               .operation = Operation::stated,
                               .faults = fuse_faults("blown"),
                               .electrics = fusible_link_electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
