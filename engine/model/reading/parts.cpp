#include "engine/base/nearest.h"
#include "engine/model/reading/part.h"
#include "engine/model/reading/sections.h"

namespace halfsplit::model::reading {
namespace {

void keep_part(const Context& context, const xml::Element& element, Part part, Draft& draft,
               std::vector<PartSource>& sources) {
    const int index = static_cast<int>(draft.circuit.parts.size());
    if (!add_thing(context, draft, part.id, {Sort::part, index, part.where})) return;
    if (!part.plug.empty() && part.plug != part.id)
        add_thing(context, draft, part.plug,
                  {Sort::plug, index, context.at(element.attribute("plug")->where)});
    sources.push_back({index, &element});
    draft.circuit.parts.push_back(std::move(part));
}

std::vector<std::string_view> places_of(const Draft& draft) {
    std::vector<std::string_view> ids;
    for (const auto& [id, where] : draft.places) ids.emplace_back(id);
    return ids;
}

void check_place(const Context& context, const xml::Element& element, const Part& part, const Draft& draft) {
    if (part.place.empty() || draft.places.count(part.place) > 0 || draft.may_exist(part.place)) return;
    const std::string hint = did_you_mean(part.place, places_of(draft));
    context.error(element.attribute("place")->where,
                  "place: there is no place " + part.place +
                      (hint.empty() ? "; the id of a <place> is expected" : hint));
}

/// A word that names another part or a quantity. Where the author leaves it out the kind's assumption may
/// name something this circuit does not have.
void check_word(const Context& context, const xml::Attribute& attribute, const WordSpec& spec,
                const Draft& draft) {
    const bool to_quantity = spec.refers_to == "quantity";
    const Sort sort = to_quantity ? Sort::quantity : Sort::part;
    const auto index = draft.things.find(attribute.value, sort);
    const bool right_kind = index && (to_quantity || draft.part(*index).kind->element == spec.refers_to);
    if (right_kind || (!index && draft.may_exist(attribute.value))) return;
    const std::string hint = index ? "" : did_you_mean(attribute.value, draft.things.all(sort));
    context.error(
        attribute.where,
        attribute.name + ": there is no " + std::string(spec.refers_to) + " " + attribute.value +
            (hint.empty() ? "; the id of a <" + std::string(spec.refers_to) + "> is expected" : hint));
}

/// With a part "J1" and a part "J1.2", the point J1.2 could be either.
void check_id_is_no_point(const Context& context, const Part& part, const Draft& draft) {
    const PointName name = split_point(part.id);
    const auto other = name.pin.empty() ? std::nullopt : draft.things.find(name.part, Sort::part);
    if (other && find_pin_index(draft.part(*other), name.pin))
        context.report.error(part.where, "the id " + part.id + " also means pin " + std::string(name.pin) +
                                             " of " + std::string(name.part) + "; another id is expected");
}

}  // namespace

std::vector<PartSource> read_parts(const Context& context, const xml::Element& parts, Draft& draft) {
    const Fields no_attributes(context, parts, {declared_by(structure("parts"))});
    refuse_text(context, parts);
    std::vector<PartSource> sources;
    for (const xml::Element& child : parts.children) {
        if (auto part = read_part(context, child))
            keep_part(context, child, std::move(*part), draft, sources);
        else if (const xml::Attribute* id = child.attribute("id"))
            draft.spoiled.insert(id->value);
        if (context.report.full()) break;
    }
    return sources;
}

void check_references(const Context& context, const std::vector<PartSource>& sources, const Draft& draft) {
    for (const PartSource& source : sources) {
        const Part& part = draft.part(source.part);
        check_place(context, *source.element, part, draft);
        for (const WordSpec& spec : part.kind->words) {
            const xml::Attribute* attribute = source.element->attribute(spec.name);
            if (!spec.refers_to.empty() && attribute != nullptr) check_word(context, *attribute, spec, draft);
        }
        check_id_is_no_point(context, part, draft);
        if (context.report.full()) return;
    }
}

}  // namespace halfsplit::model::reading
