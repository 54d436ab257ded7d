#include <cmath>

#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model {

namespace {

/// A power law through one maker's series of standard blade fuses, 5 to 30 A (from memory; within a few per
/// cent there).
double cold_ohm(double rating_a) {
    return 0.129 * std::pow(rating_a, -1.23);
}

/// A fuse that settles above this share of its rating has blown: 135 % opens within half an hour (ISO 8820-3
/// as quoted at noiasca.rothschopf.net), 110 % never does.
constexpr double kBlowsAt = 1.35;

/// A trigger on current that never goes back.
constexpr double kNever = -1;

Electrics link(const PartView& part, double ohm, const char* whole, const char* gone) {
    const int intact = part.condition(whole);
    const int blown = part.condition(gone);
    return {
        {{"link", part.pin("1"), part.pin("2"), Resistance{ohm}, {intact}}},
        {{Observed::element_current_a, "link", kBlowsAt * part.number("rating-a"), kNever, blown, intact}},
        0};
}

double ohm_of(const PartView& part) {
    return part.has("ohm") ? part.number("ohm") : cold_ohm(part.number("rating-a"));
}

Electrics fuse_electrics(const PartView& part) {
    return link(part, ohm_of(part), "intact", "blown");
}
Electrics breaker_electrics(const PartView& part) {
    return link(part, ohm_of(part), "closed", "tripped");
}

std::vector<PinSpec> fuse_pins() {
    return {{"1", "supply side"}, {"2", "load side"}};
}

std::vector<FaultSpec> fuse_faults(std::string_view open_condition, double rate) {
    return {
        {"blown", "", ForceCondition{open_condition}, "", 0, 0, 0, rate,
         "Open: find out why before it is replaced."},
        {"wrong-rating", "", SetNumber{"rating-a"}, "A", 30, 0.5, 500, 0.2,
         "Somebody fitted another rating."},
        {"high-resistance", "", SeriesElement{"link"}, "ohm", 0.5, 0.001, 1e6, 0.3,
         "Cracked link or corroded blades: works without load, not with."},
    };
}

NumberSpec rating(double low, double high) {
    return {"rating-a", "A", NAN, low, high, 0, "Rated current.", true};
}

}  // namespace

const PartKind& fuse_kind() {
    static const PartKind kind{
        .element = "fuse",
        .letter = "F",
        .title = "Fuse",
        .text = "Blade fuse in a socket. Settled above 135 % of its rating it has blown.",
        .pins = fuse_pins(),
        .contact_ohm = 0.001,
        .numbers = {rating(0.5, 120),
                    {"ohm", "ohm", NAN, 1e-5, 10, 10,
                     "Cold resistance; where nobody says, that of a standard blade of this rating."}},
        .words = {{"size", {"mini", "standard", "large"}, "standard", "Blade size."}},
        .conditions = {{"intact", "carries current"}, {"blown", "open"}},
        .operation = Operation::stated,
        .faults = fuse_faults("blown", 2),
        .electrics = &fuse_electrics,
    };
    return kind;
}

const PartKind& circuit_breaker_kind() {
    static const PartKind kind{
        .element = "circuit-breaker",
        .letter = "F",
        .title = "Circuit breaker",
        .text =
            "Thermal breaker that closes again by itself after a while; settled above 135 % of its rating it "
            "has tripped.",
        .pins = fuse_pins(),
        .contact_ohm = 0.001,
        .numbers = {rating(0.5, 200),
                    {"ohm", "ohm", NAN, 1e-5, 10, 20,
                     "Resistance when closed; where nobody says, that of a blade fuse of this rating."},
                    {"reset-s", "s", 10, 0.1, 3600, 30, "Time until it closes again."}},
        .conditions = {{"closed", "carries current"}, {"tripped", "open"}},
        .operation = Operation::stated,
        .faults = fuse_faults("tripped", 0.5),
        .electrics = &breaker_electrics,
    };
    return kind;
}

const PartKind& fusible_link_kind() {
    static const PartKind kind{
        .element = "fusible-link",
        .letter = "F",
        .title = "Fusible link",
        .text = "Main fuse near the battery, a bolted strip or a length of thin cable.",
        .pins = fuse_pins(),
        .contact_ohm = 0.0003,
        .numbers = {rating(10, 500), {"ohm", "ohm", 0.0008, 1e-5, 1, 20, "Cold resistance."}},
        .conditions = {{"intact", "carries current"}, {"blown", "open"}},
        .operation = Operation::stated,
        .faults = fuse_faults("blown", 0.3),
        .electrics = &fuse_electrics,
    };
    return kind;
}

}  // namespace halfsplit::model
