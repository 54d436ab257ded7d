#include <algorithm>

#include "engine/base/nearest.h"
#include "engine/model/chart/draft.h"
#include "engine/model/chart/subset.h"

namespace halfsplit::model::chart {
namespace {

/// What the attribute names, all of them inside `inside`; empty where something is wrong.
std::vector<int> read_targets(const Draft& draft, const xml::Attribute& attribute, int inside) {
    std::vector<int> targets;
    bool good = true;
    for (const Word& word : words_of(attribute.value)) {
        if (draft.full()) return {};
        const auto state = draft.chart.find_state(word.text);
        good = good && state && draft.chart.is_descendant(*state, inside);
        const std::string name = "'" + std::string(word.text) + "'";
        if (!state)
            draft.error(attribute, word.column,
                        "there is no state " + name + did_you_mean(word.text, draft.scope.states));
        else if (!draft.chart.is_descendant(*state, inside))
            draft.error(attribute, word.column,
                        name + " does not lie inside " + draft.chart.state(inside).id +
                            "; one that does is expected");
        else
            targets.push_back(*state);
    }
    if (!good) return {};
    if (targets.empty())
        draft.error(attribute, 1, attribute.name + " is empty; the id of a state is expected");
    if (const auto problem = targets_problem(draft.chart, targets)) {
        draft.error(attribute, 1, *problem);
        return {};
    }
    return targets;
}

/// Notes which pin in.PIN.high and in.PIN.low speak of.
void note_pin_event(Draft& draft, const xml::Attribute& attribute, const Word& word,
                    std::string_view descriptor) {
    if (!descriptor.starts_with(kPinEvents)) return;
    const std::string_view rest = descriptor.substr(kPinEvents.size());
    const std::string_view pin = rest.substr(0, rest.find('.'));
    const std::string_view level = rest.substr(std::min(pin.size() + 1, rest.size()));
    if (!level.empty() && level != "high" && level != "low")
        return draft.error(
            attribute, word.column,
            "'" + std::string(word.text) + "' never comes; the pins' events are in.PIN.high and in.PIN.low");
    const int column = word.column + static_cast<int>(kPinEvents.size());
    draft.chart.pins.push_back({PinUse::event, std::string(pin), std::nullopt, draft.at(attribute, column)});
}

/// SCXML 3.12.1: "foo", "foo." and "foo.*" mean the same, "*" any event.
void read_descriptor(Draft& draft, const xml::Attribute& attribute, const Word& word,
                     std::vector<std::string>& events) {
    std::string_view descriptor = word.text;
    if (descriptor != "*") {
        if (descriptor.ends_with(".*"))
            descriptor.remove_suffix(2);
        else if (descriptor.ends_with("."))
            descriptor.remove_suffix(1);
        if (const auto problem = event_problem(descriptor))
            return draft.error(attribute, word.column, *problem);
        note_pin_event(draft, attribute, word, descriptor);
    }
    events.emplace_back(descriptor);
}

std::vector<std::string> read_events(Draft& draft, const xml::Element& element) {
    std::vector<std::string> events;
    const xml::Attribute* attribute = element.attribute("event");
    if (attribute == nullptr) return events;
    const std::vector<Word> words = words_of(attribute->value);
    if (words.empty()) draft.error(*attribute, 1, "event is empty; the name of an event is expected");
    for (const Word& word : words) {
        if (draft.full()) break;
        read_descriptor(draft, *attribute, word, events);
    }
    return events;
}

bool read_internal(const Draft& draft, const xml::Element& element) {
    const xml::Attribute* type = element.attribute("type");
    if (type == nullptr || type->value == "external") return false;
    if (type->value != "internal")
        draft.error(*type, 1, "type: '" + type->value + "' is unknown; internal or external is expected");
    return type->value == "internal";
}

void read_transition(Draft& draft, const xml::Element& element, int source) {
    check_element(draft.context, element);
    Transition transition;
    transition.source = source;
    transition.where = draft.context.at(element.where);
    transition.events = read_events(draft, element);
    transition.condition = read_expression(draft, element, "cond", ValueType::boolean);
    if (const xml::Attribute* target = element.attribute("target"))
        transition.targets = read_targets(draft, *target, 0);
    transition.domain = transition_domain(draft.chart, transition, read_internal(draft, element));
    transition.actions = read_block(draft, element);
    const auto& given = element.attributes;
    if (std::all_of(given.begin(), given.end(), [](const auto& each) { return each.name == "type"; }))
        draft.context.error(element.where,
                            "<transition> has no event, cond or target; one of them at least is expected");
    draft.chart.states[static_cast<std::size_t>(source)].transitions.push_back(std::move(transition));
}

/// The transition in an <initial>: it has nothing but a target and actions (SCXML 3.6).
void read_initial_element(Draft& draft, const xml::Element& element, int index) {
    check_element(draft.context, element);
    State& state = draft.chart.states[static_cast<std::size_t>(index)];
    if (element.children.size() != 1) draft.context.error(element.where, "<initial> holds one <transition>");
    for (const xml::Element& child : element.children) {
        if (child.name != "transition") continue;
        check_element(draft.context, child);
        for (const xml::Attribute& attribute : child.attributes)
            if (attribute.name == "event" || attribute.name == "cond" || attribute.name == "type")
                draft.context.error(attribute.where,
                                    "the transition in <initial> has a target only, no " + attribute.name);
        if (const xml::Attribute* target = child.attribute("target"))
            state.initial = read_targets(draft, *target, index);
        else
            draft.context.error(child.where, "the transition in <initial> has no target");
        state.initial_actions = read_block(draft, child);
    }
}

/// SCXML 3.2, 3.3: the attribute, the element, or else the first child.
void read_initial(Draft& draft, const xml::Element& element, int index) {
    State& state = draft.chart.states[static_cast<std::size_t>(index)];
    const xml::Attribute* attribute = element.attribute("initial");
    const xml::Element* given = nullptr;
    for (const xml::Element& child : element.children) {
        if (child.name != "initial" || element.name != "state") continue;
        if (given != nullptr || attribute != nullptr)
            draft.context.error(child.where, "the initial states are given twice; once is expected");
        given = &child;
        read_initial_element(draft, child, index);
    }
    if (state.children.empty()) {
        if (attribute != nullptr)
            draft.context.error(attribute->where, "the state has no states inside; no initial is expected");
        return;
    }
    if (attribute != nullptr)
        state.initial = read_targets(draft, *attribute, index);
    else if (given == nullptr)
        state.initial = {state.children.front()};
}

}  // namespace

void read_contents(Draft& draft) {
    for (std::size_t i = 0; i < draft.sources.size() && !draft.full(); ++i) {
        const xml::Element& element = *draft.sources[i];
        const int index = static_cast<int>(i);
        State& state = draft.chart.states[i];
        if (state.kind != StateKind::parallel && state.kind != StateKind::final)
            read_initial(draft, element, index);
        if (state.kind == StateKind::root) continue;
        for (const xml::Element& child : element.children) {
            if (child.name == "transition" && state.kind != StateKind::final)
                read_transition(draft, child, index);
            if (child.name != "onentry" && child.name != "onexit") continue;
            check_element(draft.context, child);
            (child.name == "onentry" ? state.on_entry : state.on_exit).push_back(read_block(draft, child));
        }
    }
}

}  // namespace halfsplit::model::chart
