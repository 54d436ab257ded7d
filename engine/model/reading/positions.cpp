#include "engine/base/nearest.h"
#include "engine/model/reading/part.h"

namespace halfsplit::model::reading {
namespace {

std::optional<int> read_contact_end(Fields& fields, std::string_view name, const Part& part) {
    const std::string pin_id = fields.word(name);
    if (pin_id.empty()) return std::nullopt;
    const auto pin = find_pin_index(part, pin_id);
    if (pin) return pin;
    std::vector<std::string_view> known;
    for (const Pin& p : part.pins) known.push_back(p.id);
    fields.refuse(
        name, std::string(name) + ": there is no pin " + pin_id + " here" +
                  (known.size() > 12 ? did_you_mean(pin_id, known)
                                     : "; " + (known.empty() ? "a pin" : listed(known)) + " is expected"));
    return std::nullopt;
}

void read_contact(const Context& context, const xml::Element& element, const Part& part, Position& position) {
    Fields fields(context, element, {declared_by(structure("contact"))});
    refuse_content(context, element);
    const auto from = read_contact_end(fields, "from", part);
    const auto to = read_contact_end(fields, "to", part);
    if (!from || !to) return;
    if (*from == *to)
        fields.refuse("to",
                      "the contact joins pin " + fields.word("to") + " to itself; two pins are expected");
    position.contacts.push_back({*from, *to});
}

Position read_position(const Context& context, const xml::Element& element, const Part& part) {
    Fields fields(context, element, {declared_by(structure("position"))});
    check_children(context, element, structure("position"));
    Position position;
    position.where = fields.where();
    position.id = fields.name_word("id");
    position.title = fields.gives("title") ? fields.word("title") : position.id;
    position.momentary = fields.word("momentary") == "yes";
    for (const xml::Element& child : element.children)
        if (child.name == "contact") read_contact(context, child, part, position);
    return position;
}

}  // namespace

std::vector<Position> read_positions(const Context& context, const xml::Element& element, const Part& part) {
    std::vector<Position> positions;
    if (!part.kind->authored_positions) {
        for (const ConditionSpec& condition : part.kind->conditions)
            positions.push_back({std::string(condition.id),
                                 std::string(condition.text),
                                 false,
                                 {},
                                 context.at(element.where)});
        return positions;
    }
    std::map<std::string, Location, std::less<>> seen;
    for (const xml::Element& child : element.children) {
        if (child.name != "position" || context.report.full()) continue;
        Position position = read_position(context, child, part);
        const auto [first, is_new] = seen.emplace(position.id, position.where);
        if (!is_new && !position.id.empty())
            context.error(child.where, "the position " + position.id +
                                           " is given twice; it first stands at " + to_text(first->second));
        positions.push_back(std::move(position));
    }
    std::size_t contacts = 0;
    for (const Position& position : positions) contacts += position.contacts.size();
    if (contacts > kMaxSwitchContacts)
        context.error(element.where, "<" + element.name + "> has more than " +
                                         std::to_string(kMaxSwitchContacts) + " contacts");
    if (positions.empty())
        context.error(element.where,
                      "<" + element.name + "> has no positions; at least one <position id=…> is expected");
    return positions;
}

}  // namespace halfsplit::model::reading
