#include "engine/base/number.h"
#include "engine/model/reading/fields.h"
#include "engine/model/reading/sections.h"

namespace halfsplit::model::reading {
namespace {

void read_quantity(const Context& context, const xml::Element& element, Draft& draft) {
    Fields fields(context, element, {declared_by(structure("quantity"))});
    refuse_content(context, element);
    Quantity quantity{.id = fields.name_word("id"),
                      .title = fields.word("title"),
                      .unit = fields.word("unit"),
                      .min = fields.number("min"),
                      .max = fields.number("max"),
                      .value = fields.number("value"),
                      .where = fields.where()};
    if (quantity.title.empty()) quantity.title = quantity.id;
    if (quantity.min >= quantity.max)
        fields.refuse("max", "max: a number above min (" + number_text(quantity.min) + ") is expected");
    else if (quantity.value < quantity.min || quantity.value > quantity.max)
        fields.refuse("value", "value: " + number_text(quantity.value) + " is out of range; a number from " +
                                   number_text(quantity.min) + " (min) to " + number_text(quantity.max) +
                                   " (max) is expected");
    if (!fields.good()) {
        draft.spoiled.insert(fields.word("id"));
        return;
    }
    const int index = static_cast<int>(draft.circuit.quantities.size());
    if (add_thing(context, draft, quantity.id, {Sort::quantity, index, quantity.where}))
        draft.circuit.quantities.push_back(std::move(quantity));
}

void read_place(const Context& context, const xml::Element& element, Draft& draft) {
    Fields fields(context, element, {declared_by(structure("place"))});
    refuse_content(context, element);
    Place place{.id = fields.name_word("id"),
                .title = fields.word("title"),
                .access_min = fields.number("access-min"),
                .where = fields.where()};
    if (place.title.empty()) place.title = place.id;
    if (!fields.good()) {
        draft.spoiled.insert(fields.word("id"));
        return;
    }
    const auto [first, is_new] = draft.places.emplace(place.id, place.where);
    if (is_new)
        draft.circuit.places.push_back(std::move(place));
    else
        fields.refuse(
            "id", "the place " + place.id + " is given twice; it first stands at " + to_text(first->second));
}

}  // namespace

void read_quantities(const Context& context, const xml::Element& quantities, Draft& draft) {
    check_container(context, quantities, structure("quantities"));
    for (const xml::Element& child : quantities.children)
        if (child.name == "quantity") read_quantity(context, child, draft);
}

void read_places(const Context& context, const xml::Element& places, Draft& draft) {
    check_container(context, places, structure("places"));
    for (const xml::Element& child : places.children)
        if (child.name == "place") read_place(context, child, draft);
}

}  // namespace halfsplit::model::reading
