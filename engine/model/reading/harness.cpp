#include <algorithm>

#include "engine/base/nearest.h"
#include "engine/model/reading/colour.h"
#include "engine/model/reading/part.h"
#include "engine/model/reading/sections.h"

namespace halfsplit::model::reading {
namespace {

std::string pin_hint(const Part& part, std::string_view wrong) {
    std::vector<std::string_view> known;
    for (const Pin& pin : part.pins) known.emplace_back(pin.id);
    if (is_one_point(part)) return part.id + " alone is expected";
    if (known.empty()) return part.id + " has no pins at all";
    if (wrong.empty() || known.size() <= 12) return part.id + " has " + listed(known);
    const std::string hint = did_you_mean(wrong, known);
    return "its pins are " + std::string(known.front()) + " to " + std::string(known.back()) + hint;
}

/// The point a wire end names, or nullopt with what is wrong reported.
std::optional<PinRef> read_point(Fields& fields, std::string_view end, const Draft& draft) {
    const std::string point = fields.word(end);
    if (point.empty()) return std::nullopt;
    const auto whole = draft.things.find(point, Sort::part);
    if (whole && is_one_point(draft.part(*whole))) return PinRef{*whole, 0};
    const PointName name = split_point(point);
    const auto index = whole ? whole : draft.things.find(name.part, Sort::part);
    const std::string beginning = std::string(end) + ": " + point + " is no point; ";
    if (!index) {
        if (draft.may_exist(point) || draft.may_exist(name.part)) return std::nullopt;
        const std::string hint = did_you_mean(name.part, draft.things.all(Sort::part));
        fields.refuse(end, beginning + "there is no part " + std::string(name.part) +
                               (hint.empty() ? ", a part and its pin such as M3.1 are expected" : hint));
        return std::nullopt;
    }
    const Part& part = draft.part(*index);
    const auto pin = whole || is_one_point(part) ? std::nullopt : find_pin_index(part, name.pin);
    if (pin) return PinRef{*index, *pin};
    fields.refuse(end, beginning + (whole ? "a pin is expected after it, " : "") +
                           pin_hint(part, whole ? "" : name.pin));
    return std::nullopt;
}

void take_colour(Fields& fields, Wire& wire) {
    if (!fields.gives("colour")) return;
    const auto colour = read_colour(fields.word("colour"));
    if (!colour) return fields.refuse("colour", "colour: " + colour.error());
    wire.base_colour = colour->base;
    wire.tracer_colour = colour->tracer;
}

/// Area and length give the resistance, so they may only be left out where the author gives it.
void take_resistance(const Context& context, const xml::Element& element, const Fields& fields, Wire& wire) {
    if (fields.gives("ohm")) wire.ohm = fields.number("ohm");
    for (const std::string_view name : {"area-mm2", "length-m"})
        if (!wire.ohm && element.attribute(name) == nullptr)
            for (const NumberSpec& spec : wire_kind().numbers)
                if (spec.name == name && !spec.required)
                    context.error(element.where, "<wire> has no " + std::string(name) + "; " +
                                                     expected_number(spec) +
                                                     ", or the wire's ohm, is expected");
    if (fields.gives("area-mm2")) wire.area_mm2 = fields.number("area-mm2");
    if (fields.gives("length-m")) wire.length_m = fields.number("length-m");
    wire.tolerance_percent = fields.number("tolerance-percent");
}

void check_wire_fault_rates(const Context& context, const xml::Element& element) {
    std::vector<std::string_view> known;
    for (const FaultSpec& spec : wire_kind().faults) known.push_back(spec.kind);
    for (const xml::Element& child : element.children) {
        const xml::Attribute* kind = child.attribute("kind");
        const xml::Attribute* where = child.attribute("where");
        if (kind != nullptr && std::find(known.begin(), known.end(), kind->value) == known.end())
            context.error(kind->where, "<wire> has no fault " + kind->value + "; expected is " +
                                           listed(known) + did_you_mean(kind->value, known));
        if (where != nullptr)
            context.error(where->where,
                          "where is expected to be left out: a fault of a wire is anywhere on it");
    }
}

void read_wire(const Context& context, const xml::Element& element, Draft& draft) {
    const std::size_t errors_before = context.report.size();
    Fields fields(context, element,
                  {declared_by(structure("wire")), {wire_kind().numbers, wire_kind().words}});
    check_children(context, element, structure("wire"));
    Wire wire;
    wire.where = fields.where();
    wire.id = fields.name_word("id");
    take_colour(fields, wire);
    take_resistance(context, element, fields, wire);
    wire.fault_rates = read_fault_rates(context, element);
    check_wire_fault_rates(context, element);
    const auto from = read_point(fields, "from", draft);
    const auto to = read_point(fields, "to", draft);
    if (from && to && from->part == to->part && from->pin == to->pin)
        fields.refuse("to", "to: the wire goes from " + fields.word("from") +
                                " back to the same point; another is expected");
    if (context.report.size() != errors_before || !from || !to) {
        draft.spoiled.insert(fields.word("id"));
        return;
    }
    wire.from = *from;
    wire.to = *to;
    const int index = static_cast<int>(draft.circuit.wires.size());
    if (add_thing(context, draft, wire.id, {Sort::wire, index, wire.where}))
        draft.circuit.wires.push_back(std::move(wire));
}

}  // namespace

void read_harness(const Context& context, const xml::Element& harness, Draft& draft) {
    check_container(context, harness, structure("harness"));
    for (const xml::Element& child : harness.children) {
        if (child.name == "wire") read_wire(context, child, draft);
        if (context.report.full()) return;
    }
}

}  // namespace halfsplit::model::reading
