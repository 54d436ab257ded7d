#include "engine/base/number.h"
#include "engine/model/reading/part.h"

namespace halfsplit::model::reading {
namespace {

constexpr std::size_t kLongestPinId = 32;
constexpr std::string_view kPinLetters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789+-_";

bool is_pin_id(std::string_view id) {
    return !id.empty() && id.size() <= kLongestPinId &&
           id.find_first_not_of(kPinLetters) == std::string_view::npos;
}

std::vector<WordSpec> pin_kind_word(const PartKind& kind) {
    if (kind.pin_kinds.empty()) return {};
    return {
        {.name = "kind", .choices = kind.pin_kinds, .fallback = "", .text = "what it is", .required = true}};
}

Pin read_pin(const Context& context, const xml::Element& element, const PartKind& kind) {
    const std::vector<WordSpec> kind_word = pin_kind_word(kind);
    Fields fields(context, element, {declared_by(structure("pin")), {kind.pin_numbers, kind_word}});
    refuse_content(context, element);
    Pin pin{.id = fields.word("id"), .kind = fields.word("kind"), .words = {}, .where = fields.where()};
    if (!pin.id.empty() && !is_pin_id(pin.id))
        fields.refuse("id", "id: '" + pin.id + "' is no pin; letters, digits, _ + and - are expected");
    for (const NumberSpec& spec : kind.pin_numbers)
        if (const double number = fields.number(spec.name); number == number)
            pin.words.emplace(spec.name, number_text(number));
    return pin;
}

std::vector<Pin> read_authored_pins(const Context& context, const xml::Element& element,
                                    const PartKind& kind) {
    std::vector<Pin> pins;
    std::map<std::string, Location, std::less<>> seen;
    for (const xml::Element& child : element.children) {
        if (child.name != "pin" || context.report.full()) continue;
        Pin pin = read_pin(context, child, kind);
        const auto [first, is_new] = seen.emplace(pin.id, pin.where);
        if (!is_new && !pin.id.empty())
            context.error(child.where, "the pin " + pin.id + " is given twice; it first stands at " +
                                           to_text(first->second));
        pins.push_back(std::move(pin));
    }
    return pins;
}

std::vector<Pin> coupling_pins(const Context& context, const xml::Element& element) {
    const xml::Attribute* attribute = element.attribute("pins");
    if (attribute == nullptr) return {};
    const auto count = read_whole_number(attribute->value, 1, kMaxCouplingContacts);
    std::vector<Pin> pins;
    for (int contact = 1; contact <= count.value_or(0); ++contact)
        for (const char* side : {"a", "b"})
            pins.push_back({std::to_string(contact) + side, "", {}, context.at(element.where)});
    return pins;
}

}  // namespace

std::vector<Pin> read_pins(const Context& context, const xml::Element& element, const PartKind& kind) {
    if (kind.pin_policy == PinPolicy::single) return {{"", "", {}, context.at(element.where)}};
    if (kind.pin_policy == PinPolicy::counted) return coupling_pins(context, element);
    std::vector<Pin> pins;
    if (kind.pin_policy == PinPolicy::authored) pins = read_authored_pins(context, element, kind);
    if (pins.empty())
        for (const PinSpec& spec : kind.pins)
            pins.push_back({std::string(spec.id), "", {}, context.at(element.where)});
    if (pins.empty() && kind.pin_policy == PinPolicy::authored)
        context.error(element.where,
                      "<" + element.name + "> has no pins; at least one <pin id=…/> is expected");
    return pins;
}

}  // namespace halfsplit::model::reading
