#include <algorithm>
#include <array>

#include "engine/model/kinds/kinds.h"

namespace halfsplit::model {

std::span<const PartKind* const> part_kinds() {
    static const std::array all{
        &kinds::battery(),        &kinds::alternator(),
        &kinds::fuse(),           &kinds::circuit_breaker(),
        &kinds::fusible_link(),   &kinds::relay(),
        &kinds::flasher(),        &kinds::multi_position_switch(),
        &kinds::push_button(),    &kinds::ignition_switch(),
        &kinds::thermo_switch(),  &kinds::resistor(),
        &kinds::resistor_pack(),  &kinds::variable_resistor(),
        &kinds::ntc_thermistor(), &kinds::ptc_thermistor(),
        &kinds::heater(),         &kinds::lamp(),
        &kinds::twin_lamp(),      &kinds::led_lamp(),
        &kinds::diode(),          &kinds::capacitor(),
        &kinds::horn(),           &kinds::buzzer(),
        &kinds::solenoid(),       &kinds::motor(),
        &kinds::mechanism(),      &kinds::lock_actuator(),
        &kinds::speed_sender(),   &kinds::temperature_sender(),
        &kinds::hall_switch(),    &kinds::control_unit(),
        &kinds::coupling(),       &kinds::splice(),
        &kinds::ground_point(),
    };
    return all;
}

const PartKind* find_part_kind(std::string_view element) {
    const auto all = part_kinds();
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const PartKind* kind) { return kind->element == element; });
    return found == all.end() ? nullptr : *found;
}

}  // namespace halfsplit::model
