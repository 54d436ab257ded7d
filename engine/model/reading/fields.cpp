#include "engine/model/reading/fields.h"

#include <algorithm>
#include <limits>

#include "engine/base/nearest.h"
#include "engine/base/number.h"
#include "engine/xml/unicode.h"

namespace halfsplit::model::reading {

std::string expected_number(const NumberSpec& spec) {
    const std::string unit = spec.unit.empty() ? "" : " " + std::string(spec.unit);
    return "a number from " + number_text(spec.low) + " to " + number_text(spec.high) + unit;
}

Fields::Fields(const Context& context, const xml::Element& element, const std::vector<Declared>& declared)
    : context_(context), element_(element) {
    for (const Declared& list : declared) {
        for (const NumberSpec& spec : list.numbers) known_.push_back(spec.name);
        for (const WordSpec& spec : list.words) known_.push_back(spec.name);
    }
    refuse_unknown();
    for (const Declared& list : declared) {
        for (const NumberSpec& spec : list.numbers)
            if (numbers_.count(spec.name) + words_.count(spec.name) == 0) take_number(spec);
        for (const WordSpec& spec : list.words)
            if (numbers_.count(spec.name) + words_.count(spec.name) == 0) take_word(spec);
    }
}

void Fields::take_number(const NumberSpec& spec) {
    double& kept = numbers_[spec.name] = spec.fallback;
    const xml::Attribute* attribute = element_.attribute(spec.name);
    if (attribute == nullptr) {
        if (spec.required) refuse_missing(spec.name, expected_number(spec));
        return;
    }
    const auto number = read_number(attribute->value);
    if (!number) return refuse(spec.name, std::string(spec.name) + ": " + number.error());
    if (*number < spec.low || *number > spec.high)
        return refuse(spec.name, std::string(spec.name) + ": " + attribute->value + " is out of range; " +
                                     expected_number(spec) + " is expected");
    kept = *number;
    values_[spec.name] = attribute;
}

void Fields::take_word(const WordSpec& spec) {
    std::string_view& kept = words_[spec.name] = spec.fallback;
    const xml::Attribute* attribute = element_.attribute(spec.name);
    const std::string expected = spec.choices.empty() ? std::string(spec.text) : listed(spec.choices);
    if (attribute == nullptr) {
        if (spec.required) refuse_missing(spec.name, expected);
        return;
    }
    if (spec.required && attribute->value.empty())
        return refuse(spec.name, std::string(spec.name) + " is empty; " + expected + " is expected");
    const auto& choices = spec.choices;
    if (!choices.empty() && std::find(choices.begin(), choices.end(), attribute->value) == choices.end())
        return refuse(spec.name, std::string(spec.name) + ": '" + attribute->value + "' is unknown; " +
                                     expected + " is expected" + did_you_mean(attribute->value, choices));
    kept = attribute->value;
    values_[spec.name] = attribute;
}

void Fields::refuse_unknown() {
    for (const xml::Attribute& attribute : element_.attributes) {
        if (std::find(known_.begin(), known_.end(), attribute.name) != known_.end()) continue;
        good_ = false;
        misspelt_.push_back(nearest_name(attribute.name, known_));
        const std::string hint = did_you_mean(attribute.name, known_);
        const std::string expected =
            known_.empty() ? "; none is expected" : "; expected are " + listed(known_);
        context_.error(attribute.where, "<" + element_.name + "> has no attribute " + attribute.name +
                                            (hint.empty() ? expected : hint));
    }
}

void Fields::refuse_missing(std::string_view name, const std::string& expected) {
    good_ = false;
    if (std::find(misspelt_.begin(), misspelt_.end(), name) != misspelt_.end()) return;
    context_.error(element_.where,
                   "<" + element_.name + "> has no " + std::string(name) + "; " + expected + " is expected");
}

void Fields::refuse(std::string_view name, std::string message) {
    good_ = false;
    context_.error(mark(name), std::move(message));
}

std::string Fields::word(std::string_view name) const {
    const auto found = words_.find(name);
    return found == words_.end() ? std::string() : std::string(found->second);
}

double Fields::number(std::string_view name) const {
    const auto found = numbers_.find(name);
    return found == numbers_.end() ? std::numeric_limits<double>::quiet_NaN() : found->second;
}

xml::Mark Fields::mark(std::string_view name) const {
    const xml::Attribute* attribute = element_.attribute(name);
    return attribute == nullptr ? element_.where : attribute->where;
}

std::string Fields::name_word(std::string_view name) {
    std::string text = word(name);
    if (text.empty()) return "";
    if (!xml::is_name(text)) {
        refuse(name, std::string(name) + ": '" + text +
                         "' is not a name; letters, digits, - _ . are expected, and no digit first");
        return "";
    }
    if (text == kBodyId) {
        refuse(name, std::string(name) + ": 'body' is the vehicle body; another name is expected");
        return "";
    }
    return text;
}

void refuse_text(const Context& context, const xml::Element& element) {
    if (!element.text.empty())
        context.error(element.text_where, "no text is expected in <" + element.name + ">");
}

void refuse_content(const Context& context, const xml::Element& element) {
    refuse_text(context, element);
    for (const xml::Element& child : element.children)
        context.error(child.where, "no element is expected in <" + element.name + ">");
}

void refuse_unknown_child(const Context& context, const xml::Element& parent, const xml::Element& child,
                          const std::vector<std::string_view>& known) {
    const std::string hint = did_you_mean(child.name, known);
    std::string expected = "; no element is expected";
    if (!known.empty()) expected = known.size() > 8 ? "" : "; expected are " + listed(known);
    context.error(child.where, "<" + child.name + "> is unknown in <" + parent.name + ">" +
                                   (hint.empty() ? expected : hint));
}

void check_container(const Context& context, const xml::Element& element, const StructureSpec& spec) {
    const Fields fields(context, element, {declared_by(spec)});
    check_children(context, element, spec);
}

void check_children(const Context& context, const xml::Element& element, const StructureSpec& spec) {
    if (!spec.has_text) refuse_text(context, element);
    std::vector<std::string_view> known;
    for (const ChildSpec& child : spec.children) known.push_back(child.element);
    std::vector<int> counts(known.size());
    std::size_t last = 0;
    for (const xml::Element& child : element.children) {
        const auto found = std::find(known.begin(), known.end(), child.name);
        if (found == known.end()) {
            refuse_unknown_child(context, element, child, known);
            continue;
        }
        const auto index = static_cast<std::size_t>(found - known.begin());
        if (++counts[index] == 2 && !spec.children[index].repeated)
            context.error(child.where, "<" + child.name + "> stands here a second time; one is expected");
        if (spec.ordered && index < last)
            context.error(child.where,
                          "<" + child.name + "> is expected before <" + std::string(known[last]) + ">");
        last = std::max(last, index);
    }
    for (std::size_t i = 0; i < known.size(); ++i)
        if (spec.children[i].required && counts[i] == 0)
            context.error(element.where,
                          "<" + element.name + "> has no <" + std::string(known[i]) + ">; one is expected");
}

}  // namespace halfsplit::model::reading
