#include <cmath>

#include "engine/base/nearest.h"
#include "engine/base/number.h"
#include "engine/model/reading/fields.h"
#include "engine/model/reading/sections.h"

namespace halfsplit::model::reading {
namespace {

std::optional<SetProblem> quantity_problem(const Quantity& quantity, std::string_view to) {
    const auto number = read_number(to);
    if (!number) return SetProblem{"to", "to: " + number.error()};
    if (*number >= quantity.min && *number <= quantity.max) return std::nullopt;
    return SetProblem{"to", "to: " + std::string(to) + " is out of range; a number from " +
                                number_text(quantity.min) + " to " + number_text(quantity.max) + " " +
                                quantity.unit + " is expected"};
}

/// What goes from one end to the other may be put anywhere between: a mechanism, and a motor or a lock that
/// says how long it takes.
bool travels(const Part& part) {
    for (std::size_t i = 0; i < part.kind->numbers.size(); ++i)
        if (part.kind->numbers[i].name.starts_with("travel-")) return !std::isnan(part.numbers[i]);
    return false;
}

std::optional<SetProblem> percent_problem(double percent) {
    if (percent >= 0 && percent <= 100) return std::nullopt;
    return SetProblem{
        "to", "to: " + number_text(percent) + " is out of range; 0 to 100 % of its travel is expected"};
}

std::optional<SetProblem> position_problem(const Part& part, std::string_view to) {
    const auto percent = read_number(to);
    if (percent && travels(part)) return percent_problem(*percent);
    if (travels(part) && part.positions.empty()) return SetProblem{"to", "to: " + percent.error()};
    if (part.kind->operation != Operation::person && part.kind->operation != Operation::stated)
        return SetProblem{"what",
                          "what: " + part.id + " cannot be set, " +
                              (part.kind->operation == Operation::triggered ? "it changes by itself"
                                                                            : "it has one condition only") +
                              "; a switch or a quantity is expected"};
    std::vector<std::string_view> known;
    for (const Position& position : part.positions) {
        if (position.id == to) return std::nullopt;
        known.emplace_back(position.id);
    }
    return SetProblem{
        "to", "to: " + part.id + " has no position " + std::string(to) +
                  (known.size() > 12 ? did_you_mean(to, known)
                                     : "; " + listed(known) + " is expected" + did_you_mean(to, known))};
}

SetProblem nothing_to_set(const Draft& draft, std::string_view what) {
    std::vector<std::string_view> known = draft.things.all(Sort::part);
    for (const std::string_view id : draft.things.all(Sort::quantity)) known.push_back(id);
    const std::string hint = did_you_mean(what, known);
    return {"what", "what: there is no " + std::string(what) + " to set" +
                        (hint.empty() ? "; the id of a part or a quantity is expected" : hint)};
}

void read_set(const Context& context, const xml::Element& element, const Draft& draft,
              OperatingState& state) {
    Fields fields(context, element, {declared_by(structure("set"))});
    refuse_content(context, element);
    if (!fields.good()) return;
    SetStep step{fields.word("what"), fields.word("to"), fields.where()};
    if (const auto problem = set_problem(draft, step.what, step.to))
        fields.refuse(problem->attribute, problem->message);
    state.steps.emplace_back(std::move(step));
}

void read_state(const Context& context, const xml::Element& element, Draft& draft) {
    Fields fields(context, element, {declared_by(structure("state"))});
    check_children(context, element, structure("state"));
    OperatingState state;
    state.where = fields.where();
    state.id = fields.name_word("id");
    state.title = fields.gives("title") ? fields.word("title") : state.id;
    for (const xml::Element& child : element.children) {
        if (context.report.full()) return;
        if (child.name == "set") read_set(context, child, draft, state);
        if (child.name != "settle") continue;
        const Fields settle(context, child, {declared_by(structure("settle"))});
        refuse_content(context, child);
        state.steps.emplace_back(SettleStep{settle.number("seconds")});
    }
    if (state.id.empty()) return;
    const auto [first, is_new] = draft.states.emplace(state.id, state.where);
    if (is_new)
        draft.circuit.states.push_back(std::move(state));
    else
        fields.refuse(
            "id", "the state " + state.id + " is given twice; it first stands at " + to_text(first->second));
}

}  // namespace

std::optional<SetProblem> set_problem(const Draft& draft, std::string_view what, std::string_view to) {
    if (const auto quantity = draft.things.find(what, Sort::quantity))
        return quantity_problem(draft.circuit.quantities.at(static_cast<std::size_t>(*quantity)), to);
    if (const auto part = draft.things.find(what, Sort::part)) return position_problem(draft.part(*part), to);
    if (draft.may_exist(what)) return std::nullopt;
    return nothing_to_set(draft, what);
}

void read_states(const Context& context, const xml::Element& states, Draft& draft) {
    check_container(context, states, structure("operating-states"));
    for (const xml::Element& child : states.children)
        if (child.name == "state") read_state(context, child, draft);
}

}  // namespace halfsplit::model::reading
