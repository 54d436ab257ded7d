#include <algorithm>
#include <array>

#include "engine/model/kinds/kinds.h"

namespace halfsplit::model {

std::span<const PartKind* const> part_kinds() {
    static const std::array all{
        &battery_kind(),        &alternator_kind(),
        &fuse_kind(),           &circuit_breaker_kind(),
        &fusible_link_kind(),   &relay_kind(),
        &flasher_kind(),        &switch_kind(),
        &push_button_kind(),    &ignition_switch_kind(),
        &thermo_switch_kind(),  &resistor_kind(),
        &resistor_pack_kind(),  &variable_resistor_kind(),
        &ntc_thermistor_kind(), &ptc_thermistor_kind(),
        &heater_kind(),         &lamp_kind(),
        &twin_lamp_kind(),      &led_lamp_kind(),
        &diode_kind(),          &capacitor_kind(),
        &horn_kind(),           &buzzer_kind(),
        &solenoid_kind(),       &motor_kind(),
        &mechanism_kind(),      &lock_actuator_kind(),
        &speed_sender_kind(),   &temperature_sender_kind(),
        &hall_switch_kind(),    &control_unit_kind(),
        &coupling_kind(),       &splice_kind(),
        &ground_point_kind(),
    };
    return all;
}

const PartKind* find_part_kind(std::string_view element) {
    const auto found = std::ranges::find(part_kinds(), element, &PartKind::element);
    return found == part_kinds().end() ? nullptr : *found;
}

}  // namespace halfsplit::model
