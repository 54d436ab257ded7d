#include "engine/practice/scenario/structure.h"

#include <algorithm>
#include <stdexcept>
#include <vector>

#include "engine/model/schema_writer.h"
#include "engine/practice/scenario/scenario.h"

namespace halfsplit::practice {

namespace {

using model::NumberSpec;
using model::StructureSpec;
using model::WordSpec;

WordSpec word_needed(std::string_view name, std::string_view text) {
    return {.name = name, .choices = {}, .fallback = "", .text = text, .required = true};
}

WordSpec word_possible(std::string_view name, std::string_view text) {
    return {.name = name, .choices = {}, .fallback = "", .text = text};
}

NumberSpec number_needed(std::string_view name, std::string_view unit, double low, double high,
                         std::string_view text) {
    return {.name = name, .unit = unit, .low = low, .high = high, .text = text, .required = true};
}

NumberSpec reading_possible(std::string_view name, std::string_view unit, std::string_view text) {
    return {.name = name, .unit = unit, .low = -1000, .high = 1000, .text = text};
}

StructureSpec root() {
    return {.element = "scenario",
            .text = "The root: something to find in a vehicle.",
            .words = {{.name = "version",
                       .choices = {"1"},
                       .fallback = "1",
                       .text = "of this format",
                       .required = true},
                      word_needed("id", "its name in results: letters, digits, - _ . and no digit first"),
                      word_needed("title", "its name for people; gives nothing away"),
                      word_needed("circuit", "the circuit file, from this file's folder"),
                      word_needed("arrives", "the state of the circuit the vehicle comes in")},
            .numbers = {number_needed("level", "", 1, kLevels, "how hard it is, 1 is easy"),
                        number_needed("budget-min", "min", 1, 1000, "what the customer is ready to pay for")},
            .children = {{"job-card", true, false},
                         {"symptoms"},
                         {"instruments"},
                         {"hints"},
                         {"cautions"},
                         {"hidden", true, false}},
            .ordered = true};
}

std::vector<StructureSpec> job_card() {
    return {
        {.element = "job-card",
         .text = "What is written down when the vehicle is handed in.",
         .words = {word_needed("vehicle", "invented: no maker's name")},
         .numbers = {number_needed("mileage-km", "km", 0, 2e6, "what it has run")},
         .children = {{"complaint", true, false}, {"history", false, true}},
         .ordered = true},
        {.element = "complaint",
         .text = "What the customer says: what they see, hear or smell, never a diagnosis.",
         .has_text = true},
        {.element = "history",
         .text = "What happened before: a repair, the weather, somebody's attempt.",
         .has_text = true},
        {.element = "symptoms",
         .text = "What the complaint comes to in the circuit; check proves that the hidden faults lead to "
                 "it and that the sound vehicle does not.",
         .children = {{"symptom", false, true}}},
        {.element = "symptom",
         .text = "What is found in a state: what a part shows, or a current or voltage that was read.",
         .words = {word_needed("state", "of the circuit"),
                   word_needed("at", "a part that shows something, a wire, or a point"),
                   word_possible("shows", "what the part does: dark, dim, lit, still, slow, runs …")},
         .numbers = {reading_possible("reads-a", "A", "current in the wire, from its first end on"),
                     reading_possible("reads-v", "V", "voltage of the point against the body")}}};
}

std::vector<StructureSpec> means() {
    return {{.element = "instruments",
             .text = "Those that may be used; all where this is left out.",
             .children = {{"instrument", false, true}}},
            {.element = "instrument",
             .text = "One that may be used.",
             .words = {word_needed("id", "as the measure command knows it")}},
            {.element = "hints",
             .text = "In steps, the first gives away least.",
             .children = {{"hint", false, true}}},
            {.element = "hint", .text = "One step.", .has_text = true},
            {.element = "cautions",
             .text = "Besides those that follow from the circuit.",
             .children = {{"caution", false, true}}},
            {.element = "caution", .text = "What to mind, and why.", .has_text = true}};
}

std::vector<StructureSpec> hidden() {
    return {{.element = "hidden",
             .text = "What nobody sees who practises. Without a fault nothing is wrong with the vehicle.",
             .children = {{"fault", false, true}, {"lesson"}},
             .ordered = true},
            {.element = "fault",
             .text = "One fault that is there.",
             .words = {word_needed("spec", "kind:where[=value], as the faults command lists them")}},
            {.element = "lesson", .text = "What is to be learnt, told when it is over.", .has_text = true}};
}

std::vector<StructureSpec> all() {
    std::vector<StructureSpec> specs{root()};
    for (auto more : {job_card(), means(), hidden()})
        for (StructureSpec& spec : more) specs.push_back(std::move(spec));
    return specs;
}

}  // namespace

std::span<const StructureSpec> scenario_structures() {
    static const std::vector<StructureSpec> specs = all();
    return specs;
}

const StructureSpec& scenario_structure(std::string_view element) {
    const auto specs = scenario_structures();
    const auto found = std::ranges::find(specs, element, &StructureSpec::element);
    if (found == specs.end()) throw std::logic_error("no element " + std::string(element));
    return *found;
}

std::string scenario_schema() {
    return model::schema::written_schema(kScenarioNamespace, "engine/practice/scenario/",
                                         scenario_structures());
}

}  // namespace halfsplit::practice
