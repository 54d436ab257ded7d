#include "ui/view/diagram/shape.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <stdexcept>

#include "engine/base/index.h"

namespace halfsplit::view::diagram {

namespace {

using A = Arrangement;
using S = Shape;

constexpr std::array<KindPicture, 35> kPictures{{
    {"battery", S::battery, A::two_pole, "", ""},
    {"alternator", S::alternator, A::unit, "max-a", "A"},
    {"fuse", S::fuse, A::two_pole, "rating-a", "A"},
    {"circuit-breaker", S::circuit_breaker, A::two_pole, "rating-a", "A"},
    {"fusible-link", S::fusible_link, A::two_pole, "rating-a", "A"},
    {"relay", S::relay, A::relay, "", ""},
    {"flasher", S::flasher, A::unit, "", ""},
    {"switch", S::contact_table, A::unit, "", ""},
    {"push-button", S::push_contact, A::two_pole, "", ""},
    {"ignition-switch", S::common_contacts, A::one_common, "", ""},
    {"thermo-switch", S::thermo_contact, A::two_pole, "", ""},
    {"resistor", S::resistor, A::two_pole, "ohm", "Ω"},
    {"resistor-pack", S::resistor_chain, A::chain, "", ""},
    {"variable-resistor", S::variable_resistor, A::chain, "ohm", "Ω"},
    {"ntc-thermistor", S::ntc, A::two_pole, "", ""},
    {"ptc-thermistor", S::ptc, A::two_pole, "", ""},
    {"heater", S::heater, A::two_pole, "rated-w", "W"},
    {"lamp", S::lamp, A::two_pole, "rated-w", "W"},
    {"twin-lamp", S::twin_lamp, A::one_common, "", ""},
    {"led-lamp", S::led, A::two_pole, "", ""},
    {"diode", S::diode, A::two_pole, "", ""},
    {"capacitor", S::capacitor, A::two_pole, "", ""},
    {"horn", S::horn, A::two_pole, "", ""},
    {"buzzer", S::buzzer, A::two_pole, "", ""},
    {"solenoid", S::solenoid, A::two_pole, "", ""},
    {"motor", S::motor, A::two_pole, "", ""},
    {"mechanism", S::mechanism, A::none, "", ""},
    {"lock-actuator", S::lock_actuator, A::two_pole, "", ""},
    {"speed-sender", S::sender, A::unit, "", ""},
    {"temperature-sender", S::temperature_sender, A::two_pole, "", ""},
    {"hall-switch", S::sender, A::unit, "", ""},
    {"control-unit", S::box, A::unit, "", ""},
    {"coupling", S::coupling, A::contacts, "", ""},
    {"splice", S::splice, A::point, "", ""},
    {"ground-point", S::ground, A::point, "", ""},
}};

/// DIN 72552: 75 accessories, 15 ignition, 50 starter; the order of the conditions is the kind's.
std::vector<std::vector<model::Contact>> ignition_contacts(const model::Part& part) {
    const auto contact = [&](std::string_view pin) {
        return model::Contact{model::find_pin_index(part, "30").value_or(0),
                              model::find_pin_index(part, pin).value_or(0)};
    };
    return {{}, {contact("75")}, {contact("75"), contact("15")}, {contact("15"), contact("50")}};
}

std::string short_number(double value) {
    std::array<char, 32> text{};
    const auto end =
        std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::general, 4);
    return {text.data(), end.ptr};
}

}  // namespace

const KindPicture* find_picture(std::string_view element) {
    const auto* found = std::find_if(kPictures.begin(), kPictures.end(),
                                     [&](const KindPicture& picture) { return picture.element == element; });
    return found == kPictures.end() ? nullptr : found;
}

std::vector<std::vector<model::Contact>> contacts_of(const model::Part& part) {
    if (part.kind->element == "ignition-switch") return ignition_contacts(part);
    std::vector<std::vector<model::Contact>> contacts;
    for (const model::Position& position : part.positions) contacts.push_back(position.contacts);
    return contacts;
}

int common_pin(const model::Part& part) {
    const auto positions = contacts_of(part);
    for (int pin = 0; pin < static_cast<int>(part.pins.size()); ++pin) {
        bool any = false;
        bool in_all = true;
        for (const auto& contacts : positions)
            for (const model::Contact& contact : contacts) {
                any = true;
                in_all = in_all && (contact.from == pin || contact.to == pin);
            }
        if (any && in_all) return pin;
    }
    return -1;
}

KindPicture picture_of(const model::Part& part) {
    const KindPicture* found = find_picture(part.kind->element);
    if (found == nullptr)
        throw std::logic_error("no picture for a kind of part: " + std::string(part.kind->element));
    KindPicture picture = *found;
    if (picture.shape != Shape::contact_table) return picture;
    if (part.pins.size() == 2) {
        picture.shape = Shape::contact;
        picture.arrangement = Arrangement::two_pole;
    } else if (common_pin(part) >= 0) {
        picture.shape = Shape::common_contacts;
        picture.arrangement = Arrangement::one_common;
    }
    return picture;
}

std::string value_text(const model::Part& part) {
    const KindPicture* picture = find_picture(part.kind->element);
    if (picture == nullptr || picture->value.empty()) return "";
    for (std::size_t i = 0; i < part.kind->numbers.size(); ++i)
        if (part.kind->numbers[i].name == picture->value && std::isfinite(part.numbers.at(i)))
            return short_number(part.numbers.at(i)) + " " + std::string(picture->unit);
    return "";
}

}  // namespace halfsplit::view::diagram
