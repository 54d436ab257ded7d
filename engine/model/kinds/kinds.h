#pragma once

#include "engine/model/part_kind.h"

namespace halfsplit::model {

/// One function a kind, each in the file of its family.
const PartKind& battery_kind();
const PartKind& alternator_kind();
const PartKind& fuse_kind();
const PartKind& circuit_breaker_kind();
const PartKind& fusible_link_kind();
const PartKind& relay_kind();
const PartKind& flasher_kind();
const PartKind& switch_kind();
const PartKind& push_button_kind();
const PartKind& ignition_switch_kind();
const PartKind& thermo_switch_kind();
const PartKind& resistor_kind();
const PartKind& resistor_pack_kind();
const PartKind& variable_resistor_kind();
const PartKind& ntc_thermistor_kind();
const PartKind& ptc_thermistor_kind();
const PartKind& heater_kind();
const PartKind& lamp_kind();
const PartKind& twin_lamp_kind();
const PartKind& led_lamp_kind();
const PartKind& diode_kind();
const PartKind& capacitor_kind();
const PartKind& horn_kind();
const PartKind& buzzer_kind();
const PartKind& solenoid_kind();
const PartKind& motor_kind();
const PartKind& mechanism_kind();
const PartKind& lock_actuator_kind();
const PartKind& speed_sender_kind();
const PartKind& temperature_sender_kind();
const PartKind& hall_switch_kind();
const PartKind& control_unit_kind();
const PartKind& coupling_kind();
const PartKind& splice_kind();
const PartKind& ground_point_kind();

}  // namespace halfsplit::model
