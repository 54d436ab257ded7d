#include <array>

#include "engine/base/number.h"
#include "engine/model/reading/part.h"

namespace halfsplit::model::reading {
namespace {

/// Two numbers of a kind of which the first must be below the second, or must only differ from it. A kind
/// that lacks either, or a part that leaves one out, is not concerned.
struct OrderRule {
    std::string_view lower;
    std::string_view upper;
    enum class Rule { below, not_above, differ } rule;
    std::string_view because;
};

constexpr std::array<OrderRule, 6> kRules{{
    {"drop-out-v", "pull-in-v", OrderRule::Rule::below, "else it would chatter"},
    {"opens-at-degc", "closes-at-degc", OrderRule::Rule::differ, "else it would chatter"},
    {"off-at", "on-at", OrderRule::Rule::differ, "else it would chatter"},
    {"no-load-a", "load-a", OrderRule::Rule::not_above, "a load can only add current"},
    {"no-load-a", "stall-a", OrderRule::Rule::below, "a stalled motor draws the most"},
    {"load-a", "stall-a", OrderRule::Rule::below, "a stalled motor draws the most"},
}};

bool keeps(const OrderRule& rule, double lower, double upper) {
    switch (rule.rule) {
        case OrderRule::Rule::below:
            return lower < upper;
        case OrderRule::Rule::not_above:
            return lower <= upper;
        case OrderRule::Rule::differ:
            return lower != upper;
    }
    return true;
}

std::string_view relation(OrderRule::Rule rule) {
    switch (rule) {
        case OrderRule::Rule::below:
            return "below";
        case OrderRule::Rule::not_above:
            return "not above";
        case OrderRule::Rule::differ:
            return "different from";
    }
    return "";
}

xml::Mark mark_of(const xml::Element& element, std::string_view first, std::string_view otherwise) {
    const xml::Attribute* attribute = element.attribute(first);
    if (attribute == nullptr) attribute = element.attribute(otherwise);
    return attribute == nullptr ? element.where : attribute->where;
}

/// The behaviour of a control unit lies next to its circuit.
void check_behaviour_file(const Context& context, const xml::Element& element) {
    const xml::Attribute* attribute = element.attribute("behaviour");
    if (attribute == nullptr) return;
    constexpr std::string_view kExtension = ".scxml";
    const std::string_view name = attribute->value;
    const bool right = name.size() > kExtension.size() && name.front() != '.' &&
                       name.substr(name.size() - kExtension.size()) == kExtension &&
                       name.find_first_of("/\\:") == std::string_view::npos;
    if (!right)
        context.error(attribute->where, "behaviour: '" + attribute->value +
                                            "' is no state chart; the name of an .scxml file in this file's "
                                            "folder is expected");
}

}  // namespace

void check_values_together(const Context& context, const xml::Element& element, const Part& part) {
    for (const OrderRule& rule : kRules) {
        const double lower = part_number(part, rule.lower);
        const double upper = part_number(part, rule.upper);
        if (lower != lower || upper != upper || keeps(rule, lower, upper)) continue;
        context.error(mark_of(element, rule.lower, rule.upper),
                      std::string(rule.lower) + " " + number_text(lower) + " is expected to be " +
                          std::string(relation(rule.rule)) + " " + std::string(rule.upper) + " " +
                          number_text(upper) + ": " + std::string(rule.because));
    }
    check_behaviour_file(context, element);
}

}  // namespace halfsplit::model::reading
