#include "engine/model/chart/subset.h"

#include <algorithm>
#include <array>

#include "engine/base/nearest.h"

namespace halfsplit::model::chart {
namespace {

using Names = std::vector<std::string_view>;

constexpr std::array<std::string_view, 6> kExecutable{"assign", "send", "cancel", "raise", "log", "if"};
/// The elements of SCXML that the subset leaves out (recommendation of 1 September 2015, chapters 3 to 6).
constexpr std::array<std::string_view, 8> kOutside{"history",  "foreach",  "script",  "invoke",
                                                   "finalize", "donedata", "content", "param"};

Names executable_and(const Names& more = {}) {
    Names names(kExecutable.begin(), kExecutable.end());
    names.insert(names.end(), more.begin(), more.end());
    return names;
}

const std::vector<ElementSpec>& elements() {
    static const std::vector<ElementSpec> specs{
        {"scxml",
         {"version"},
         {"initial", "name", "datamodel", "binding"},
         {},
         {"datamodel", "state", "parallel", "final"}},
        {"state",
         {"id"},
         {"initial"},
         {},
         {"datamodel", "onentry", "onexit", "initial", "transition", "state", "parallel", "final"}},
        {"parallel", {"id"}, {}, {}, {"datamodel", "onentry", "onexit", "transition", "state", "parallel"}},
        {"final", {"id"}, {}, {}, {"onentry", "onexit"}},
        {"initial", {}, {}, {}, {"transition"}},
        {"transition", {}, {"event", "cond", "target", "type"}, {}, executable_and()},
        {"onentry", {}, {}, {}, executable_and()},
        {"onexit", {}, {}, {}, executable_and()},
        {"datamodel", {}, {}, {}, {"data"}},
        {"data", {"id", "expr"}, {}, {"src"}, {}},
        {"assign", {"location", "expr"}, {}, {"type", "attr"}, {}},
        {"raise", {"event"}, {}, {}, {}},
        {"send",
         {"event"},
         {"id", "delay", "delayexpr"},
         {"eventexpr", "target", "targetexpr", "type", "typeexpr", "idlocation", "namelist"},
         {}},
        {"cancel", {"sendid"}, {}, {"sendidexpr"}, {}},
        {"log", {}, {"label", "expr"}, {}, {}},
        {"if", {"cond"}, {}, {}, executable_and({"elseif", "else"})},
        {"elseif", {"cond"}, {}, {}, {}},
        {"else", {}, {}, {}, {}}};
    return specs;
}

bool lists(const Names& names, std::string_view name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

void check_attributes(const reading::Context& context, const xml::Element& element, const ElementSpec& spec) {
    Names known = spec.required;
    known.insert(known.end(), spec.optional.begin(), spec.optional.end());
    Names misspelt;
    for (const xml::Attribute& attribute : element.attributes) {
        if (lists(known, attribute.name)) continue;
        const std::string it = "<" + element.name + "> has no attribute " + attribute.name;
        if (lists(spec.outside, attribute.name)) {
            context.error(attribute.where, attribute.name + " of <" + element.name +
                                               "> is outside the subset of SCXML that behaviour files use");
            continue;
        }
        misspelt.push_back(nearest_name(attribute.name, known));
        const std::string hint = did_you_mean(attribute.name, known);
        const std::string expected = known.empty() ? "; none is expected" : "; expected are " + listed(known);
        context.error(attribute.where, it + (hint.empty() ? expected : hint));
    }
    for (const std::string_view name : spec.required)
        if (element.attribute(name) == nullptr && !lists(misspelt, name))
            context.error(element.where, "<" + element.name + "> has no " + std::string(name));
}

void check_children(const reading::Context& context, const xml::Element& element, const ElementSpec& spec) {
    for (const xml::Element& child : element.children) {
        if (lists(spec.children, child.name)) continue;
        if (context.report.full()) return;
        const std::string name = "<" + child.name + ">";
        if (std::find(kOutside.begin(), kOutside.end(), child.name) != kOutside.end()) {
            context.error(child.where, name + " is outside the subset of SCXML that behaviour files use");
            continue;
        }
        const std::string hint = did_you_mean(child.name, spec.children);
        const std::string expected = spec.children.empty() ? "; it is expected to be empty"
                                                           : "; expected are " + listed(spec.children);
        context.error(child.where,
                      name + " does not belong in <" + element.name + ">" + (hint.empty() ? expected : hint));
    }
    if (!element.text.empty())
        context.error(element.text_where, "text does not belong in <" + element.name + ">");
}

}  // namespace

const ElementSpec* find_element(std::string_view name) {
    const auto& specs = elements();
    const auto found =
        std::find_if(specs.begin(), specs.end(), [&](const ElementSpec& spec) { return spec.name == name; });
    return found == specs.end() ? nullptr : &*found;
}

bool is_executable(std::string_view name) {
    return std::find(kExecutable.begin(), kExecutable.end(), name) != kExecutable.end();
}

void check_element(const reading::Context& context, const xml::Element& element) {
    if (context.report.full()) return;
    const ElementSpec& spec = *find_element(element.name);
    check_attributes(context, element, spec);
    check_children(context, element, spec);
}

}  // namespace halfsplit::model::chart
