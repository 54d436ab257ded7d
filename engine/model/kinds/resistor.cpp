#include <algorithm>

#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

NumberSpec ohm_number(std::string_view name, double tolerance_percent, std::string_view text, bool required) {
    return {.name = name,
            .unit = "ohm",
            .low = 1e-3,
            .high = 1e9,
            .tolerance_percent = tolerance_percent,
            .text = text,
            .required = required};
}

Electrics resistor_electrics(const PartView& part) {
    return {.elements = {{"resistance", part.pin("1"), part.pin("2"), Resistance{part.number("ohm")}}},
            .triggers = {}};
}

Electrics pack_electrics(const PartView& part) {
    std::vector<Element> sections{{"1-2", part.pin("1"), part.pin("2"), Resistance{part.number("ohm-1")}}};
    if (part.has("ohm-2"))
        sections.push_back({"2-3", part.pin("2"), part.pin("3"), Resistance{part.number("ohm-2")}});
    if (part.has("ohm-3"))
        sections.push_back({"3-4", part.pin("3"), part.pin("4"), Resistance{part.number("ohm-3")}});
    return {.elements = std::move(sections), .triggers = {}};
}

/// Share of the track between pin 1 and the wiper.
double wiper_share(const PartView& part) {
    const double set = part.number("setting-percent");
    const std::string_view quantity = part.word("quantity");
    return std::clamp(quantity.empty() ? set : part.quantity(quantity, set), 0.0, 100.0) / 100;
}

Electrics variable_resistor_electrics(const PartView& part) {
    const double share = wiper_share(part);
    const double ohm = part.number("ohm");
    const double end_ohm = part.number("end-ohm");
    const int wiper = part.pin("2");
    return {.elements = {{"track-a", part.pin("1"), wiper, Resistance{ohm * share + end_ohm}},
                         {"track-b", wiper, part.pin("3"), Resistance{ohm * (1 - share) + end_ohm}}},
            .triggers = {}};
}

constexpr std::string_view kSectionOpen =
    "This section is burnt out: the blower speeds that need it are dead, the others work.";
constexpr std::string_view kSectionDrift =
    "This section has another resistance than it should, by the factor.";

std::vector<FaultSpec> pack_faults() {
    return {open_fault("1-2", {1, kSectionOpen, "1-2"}),
            open_fault("2-3", {1, kSectionOpen, "2-3"}),
            open_fault("3-4", {1, kSectionOpen, "3-4"}),
            drift_fault("ohm-1", 2, {0.2, kSectionDrift, "1-2"}),
            drift_fault("ohm-2", 2, {0.2, kSectionDrift, "2-3"}),
            drift_fault("ohm-3", 2, {0.2, kSectionDrift, "3-4"})};
}

std::vector<FaultSpec> variable_resistor_faults() {
    constexpr std::string_view kTrackOpen =
        "The track is worn through on this side of the wiper: the signal jumps to the other end's.";
    return {open_fault("track-a", {0.5, kTrackOpen, "track-a"}),
            open_fault("track-b", {0.5, kTrackOpen, "track-b"}),
            drift_fault("ohm", 2, {0.3, "Worn track: its resistance has changed by the factor."})};
}

}  // namespace

const PartKind& resistor() {
    static const PartKind kind{
        .element = "resistor",
        .letter = "R",
        .title = "Resistor",
        .text = "A fixed resistor, such as a series resistor or a dummy load.",
        .pins = {{"1", "one end"}, {"2", "the other end"}},
        .numbers = {ohm_number("ohm", 5, "its resistance", true),
                    {.name = "rated-w",
                     .unit = "W",
                     .fallback = 5,
                     .low = 0.01,
                     .high = 1e4,
                     .text = "power it can turn into heat for good"}},
        .words = {{.name = "purpose",
                   .choices = {"series", "load"},
                   .fallback = "series",
                   .text = "load: it stands for something that takes current for itself, such as a gauge"}},
        .conditions = {},
        .faults = {open_fault("resistance", {0.5, "Burnt out: no current; the full voltage lies across it."}),
                   short_fault("resistance", {0.1, "Bridged, by the value: too much current behind it."}),
                   drift_fault("ohm", 2, {0.3, "Overheated: its resistance has changed by the factor."})},
        .electrics = resistor_electrics};
    return kind;
}

const PartKind& resistor_pack() {
    static const PartKind kind{
        .element = "resistor-pack",
        .letter = "R",
        .title = "Resistor pack",
        .text =
            "Up to three resistors in a row with a tap between them, as for the speeds of a blower: 1-2, "
            "2-3, 3-4.",
        .pins = {{"1", "first end"},
                 {"2", "between the first and the second"},
                 {"3", "between the second and the third"},
                 {"4", "last end"}},
        .numbers = {ohm_number("ohm-1", 5, "between 1 and 2", true),
                    ohm_number("ohm-2", 5, "between 2 and 3; left out, there is no such section", false),
                    ohm_number("ohm-3", 5, "between 3 and 4; left out, there is no such section", false)},
        .words = {},
        .conditions = {},
        .faults = pack_faults(),
        .electrics = pack_electrics};
    return kind;
}

const PartKind& variable_resistor() {
    static const PartKind kind{
        .element = "variable-resistor",
        .letter = "R",
        .title = "Variable resistor",
        .text =
            "A track with a wiper: a fuel sender, a dimmer wheel, a position sender. At 0 percent the wiper "
            "is at "
            "pin 1, at 100 at pin 3.",
        .pins = {{"1", "start of the track"}, {"2", "wiper"}, {"3", "end of the track"}},
        .numbers = {ohm_number("ohm", 10, "of the whole track", true),
                    {.name = "setting-percent",
                     .unit = "%",
                     .fallback = 50,
                     .low = 0,
                     .high = 100,
                     .text = "where the wiper stands, unless a quantity moves it"},
                    {.name = "end-ohm",
                     .unit = "ohm",
                     .fallback = 0.2,
                     .low = 1e-3,
                     .high = 1e6,
                     .text = "what is left at either end of the travel"}},
        .words = {{.name = "quantity",
                   .choices = {},
                   .fallback = "",
                   .text = "the quantity that moves the wiper; its value is the percentage",
                   .refers_to = "quantity"}},
        .conditions = {},
        .faults = variable_resistor_faults(),
        .electrics = variable_resistor_electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
