#include <algorithm>

#include "engine/base/nearest.h"
#include "engine/model/part_view.h"
#include "engine/model/reading/part.h"

namespace halfsplit::model::reading {
namespace {

/// Names of the part's contacts, as a contact fault gives them: "1-2".
std::vector<std::string> contact_names(const Part& part) {
    const Quantities nothing;
    const PartView view(part, part.numbers, nothing, 12);
    std::vector<std::string> names;
    for (const Element& element : part.kind->electrics(view).elements)
        if (element.contact) names.push_back(element.name);
    return names;
}

/// Where faults of this kind can be on the part; "" for the part as a whole. Empty: it has no such fault.
std::vector<std::string> places_of_fault(const Part& part, const std::vector<std::string>& contacts,
                                         std::string_view fault) {
    std::vector<std::string> places;
    for (const FaultSpec& spec : part.kind->faults) {
        if (spec.kind != fault) continue;
        places.emplace_back(spec.element);
        if (std::holds_alternative<ContactEffect>(spec.effect))
            places.insert(places.end(), contacts.begin(), contacts.end());
    }
    const bool on_contacts = std::any_of(contact_faults().begin(), contact_faults().end(),
                                         [&](const FaultSpec& spec) { return spec.kind == fault; });
    const bool on_plug = std::any_of(plug_faults().begin(), plug_faults().end(),
                                     [&](const FaultSpec& spec) { return spec.kind == fault; });
    const bool has_contacts = part.plugged || part.kind->pin_policy == PinPolicy::counted;
    if (has_contacts && on_contacts)
        for (const Pin& pin : part.pins) places.push_back(pin.id);
    if (has_contacts && on_plug) places.emplace_back();
    return places;
}

std::vector<std::string_view> fault_kinds_of(const Part& part) {
    std::vector<std::string_view> kinds;
    for (const auto& faults :
         {std::span<const FaultSpec>(part.kind->faults), contact_faults(), plug_faults()})
        for (const FaultSpec& spec : faults)
            if (std::find(kinds.begin(), kinds.end(), spec.kind) == kinds.end()) kinds.push_back(spec.kind);
    return kinds;
}

void check_fault_rate(const Context& context, const xml::Element& element, const Part& part,
                      const std::vector<std::string>& contacts, const FaultRate& rate) {
    const auto mark_of = [&](std::string_view name) {
        const xml::Attribute* attribute = element.attribute(name);
        return attribute == nullptr ? element.where : attribute->where;
    };
    const std::string about = "<" + std::string(part.kind->element) + "> ";
    const std::vector<std::string> places = places_of_fault(part, contacts, rate.kind);
    if (places.empty()) {
        const auto kinds = fault_kinds_of(part);
        const std::string hint = did_you_mean(rate.kind, kinds);
        context.error(mark_of("kind"), about + "has no fault " + rate.kind +
                                           (hint.empty() ? "; expected is " + listed(kinds) : hint));
    } else if (!rate.where.empty() && std::find(places.begin(), places.end(), rate.where) == places.end()) {
        std::vector<std::string_view> known;
        for (const std::string& place : places)
            if (!place.empty()) known.push_back(place);
        const std::string expected = known.empty()       ? "; where is expected to be left out"
                                     : known.size() > 12 ? did_you_mean(rate.where, known)
                                                         : "; expected is " + listed(known);
        context.error(mark_of("where"), about + "has no fault " + rate.kind + " at " + rate.where + expected);
    }
}

}  // namespace

std::vector<FaultRate> read_fault_rates(const Context& context, const xml::Element& element) {
    std::vector<FaultRate> rates;
    for (const xml::Element& child : element.children) {
        if (child.name != "fault-rate") continue;
        const Fields fields(context, child, {declared_by(structure("fault-rate"))});
        refuse_content(context, child);
        rates.push_back({fields.word("kind"), fields.word("where"), fields.number("rate")});
    }
    return rates;
}

void check_fault_rates(const Context& context, const xml::Element& element, const Part& part) {
    if (part.fault_rates.empty()) return;
    const std::vector<std::string> contacts = contact_names(part);
    std::size_t index = 0;
    for (const xml::Element& child : element.children)
        if (child.name == "fault-rate")
            check_fault_rate(context, child, part, contacts, part.fault_rates.at(index++));
}

}  // namespace halfsplit::model::reading
