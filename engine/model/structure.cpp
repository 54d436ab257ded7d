#include "engine/model/structure.h"

#include <algorithm>
#include <stdexcept>
#include <string>

namespace halfsplit::model {
namespace {

const WordSpec kId{.name = "id",
                   .choices = {},
                   .fallback = "",
                   .text = "its name in this file: letters, digits, - _ . and no digit first",
                   .required = true};
const WordSpec kTitle{.name = "title", .choices = {}, .fallback = "", .text = "its name for people"};

NumberSpec required_number(std::string_view name, std::string_view unit, double low, double high,
                           std::string_view text) {
    return {.name = name, .unit = unit, .low = low, .high = high, .text = text, .required = true};
}

WordSpec required_word(std::string_view name, std::string_view text) {
    return {.name = name, .choices = {}, .fallback = "", .text = text, .required = true};
}

StructureSpec circuit_structure() {
    WordSpec title = kTitle;
    title.required = true;
    return {.element = "circuit",
            .text = "The root: one circuit, or a vehicle joined from several.",
            .words = {{.name = "version",
                       .choices = {"1"},
                       .fallback = "1",
                       .text = "of this format",
                       .required = true},
                      kId,
                      title},
            .numbers = {{.name = "nominal-v",
                         .unit = "V",
                         .fallback = 12,
                         .low = 6,
                         .high = 60,
                         .text = "of the supply; 60 V d.c. is where high voltage begins"}},
            .children = {{"about", true, false},
                         {"include", false, true},
                         {"quantities"},
                         {"places"},
                         {"parts", true, false},
                         {"harness"},
                         {"operating-states"}},
            .ordered = true};
}

std::vector<StructureSpec> include_structures() {
    return {
        {.element = "about", .text = "What the circuit does, in words for the job card.", .has_text = true},
        {.element = "include",
         .text = "Joins another circuit file to this one.",
         .words = {required_word("href", "the file, below this file's folder"),
                   {.name = "prefix",
                    .choices = {},
                    .fallback = "",
                    .text = "put before the ids of its parts, wires, plugs and states"}},
         .children = {{"same", false, true}}},
        {.element = "same",
         .text = "A part or wire of the included file that is one of this file.",
         .words = {required_word("id", "in the included file"), required_word("as", "in this file")}}};
}

std::vector<StructureSpec> world_structures() {
    return {{.element = "quantities",
             .text = "What the world does to the circuit.",
             .children = {{"quantity", false, true}}},
            {.element = "quantity",
             .text = "One thing the world sets: a speed, a temperature.",
             .words = {kId, kTitle, required_word("unit", "as people write it: km/h, degC, %")},
             .numbers = {required_number("min", "", -1e9, 1e9, "smallest value"),
                         required_number("max", "", -1e9, 1e9, "largest value"),
                         required_number("value", "", -1e9, 1e9, "where nobody sets it")}},
            {.element = "places", .text = "Where parts are.", .children = {{"place", false, true}}},
            {.element = "place",
             .text = "One place in the vehicle.",
             .words = {kId, kTitle},
             .numbers = {{.name = "access-min",
                          .unit = "min",
                          .fallback = 0,
                          .low = 0,
                          .high = 1000,
                          .text = "minutes to get at it"}}}};
}

std::vector<StructureSpec> part_structures() {
    return {{.element = "parts", .text = "The parts, in any order."},
            {.element = "part",
             .text = "What every part takes.",
             .words = {kId},
             .children = {{"pin", false, true}, {"position", false, true}, {"fault-rate", false, true}}},
            {.element = "pin",
             .text = "One pin, where the author lists them.",
             .words = {required_word("id", "letters, digits, + and -")}},
            {.element = "position",
             .text = "One position of a switch; the first is that at rest.",
             .words = {kId,
                       kTitle,
                       {.name = "momentary",
                        .choices = {"yes", "no"},
                        .fallback = "no",
                        .text = "whether it springs back to the first position"}},
             .children = {{"contact", false, true}}},
            {.element = "contact",
             .text = "Two pins that are joined in this position.",
             .words = {required_word("from", "a pin"), required_word("to", "a pin")}},
            {.element = "fault-rate",
             .text = "How often a fault of this part happens, relative to other faults.",
             .words = {required_word("kind", "the fault's kind"),
                       {.name = "where",
                        .choices = {},
                        .fallback = "",
                        .text = "which element, contact or pin of the part; all where it is left out"}},
             .numbers = {required_number("rate", "", 0, 1e6, "1 is the rate of an ordinary fault")}}};
}

std::vector<StructureSpec> harness_and_state_structures() {
    return {
        {.element = "harness", .text = "The wires.", .children = {{"wire", false, true}}},
        {.element = "wire",
         .text = "One wire between two points.",
         .words = {kId, required_word("from", "a point: M3.1, X20.3a, J14"), required_word("to", "a point"),
                   required_word("colour", "IEC 60757 letters, base then tracer: RD, GNYE")},
         .children = {{"fault-rate", false, true}}},
        {.element = "operating-states",
         .text = "Situations in which the circuit is looked at.",
         .children = {{"state", false, true}}},
        {.element = "state",
         .text = "One situation and how to bring it about, step by step.",
         .words = {kId, kTitle},
         .children = {{"set", false, true}, {"settle", false, true}}},
        {.element = "set",
         .text = "Brings a part or a quantity of the world to a position or value.",
         .words = {required_word("what", "a part that can be set, or a quantity"),
                   required_word("to", "its position, or a number")}},
        {.element = "settle",
         .text = "Lets time pass.",
         .numbers = {required_number("seconds", "s", 0, 1e6, "how long")}}};
}

std::vector<StructureSpec> all_structures() {
    std::vector<StructureSpec> all{circuit_structure()};
    for (const auto& group :
         {include_structures(), world_structures(), part_structures(), harness_and_state_structures()})
        all.insert(all.end(), group.begin(), group.end());
    return all;
}

}  // namespace

std::span<const StructureSpec> structures() {
    static const std::vector<StructureSpec> all = all_structures();
    return all;
}

const StructureSpec& structure(std::string_view element) {
    const auto all = structures();
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const StructureSpec& s) { return s.element == element; });
    if (found == all.end()) throw std::logic_error("no structure " + std::string(element));
    return *found;
}

}  // namespace halfsplit::model
