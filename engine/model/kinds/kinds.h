#pragma once

#include "engine/model/part_kind.h"

/// The declarations of all part kinds, each in the file of its name or family. Order as in the manual.
/// Defaults, ranges and tolerances that name no source beside them are from memory: usual values of the
/// trade. tests/model/kinds_test.cpp holds those against published figures for which there are any.
namespace halfsplit::model::kinds {

// Supply: battery.cpp, alternator.cpp
const PartKind& battery();
const PartKind& alternator();

// Protection: fuse.cpp
const PartKind& fuse();
const PartKind& circuit_breaker();
const PartKind& fusible_link();

// Relays: relay.cpp, flasher.cpp
const PartKind& relay();
const PartKind& flasher();

// Switches: switch.cpp, fixed_switches.cpp, thermo_switch.cpp
const PartKind& multi_position_switch();
const PartKind& push_button();
const PartKind& ignition_switch();
const PartKind& thermo_switch();

// Resistors: resistor.cpp, thermistor.cpp
const PartKind& resistor();
const PartKind& resistor_pack();
const PartKind& variable_resistor();
const PartKind& ntc_thermistor();
const PartKind& ptc_thermistor();

// Loads that glow or warm: heater.cpp, lamp.cpp
const PartKind& heater();
const PartKind& lamp();
const PartKind& twin_lamp();
const PartKind& led_lamp();

// Small parts: diode.cpp, capacitor.cpp
const PartKind& diode();
const PartKind& capacitor();

// Loads that sound or pull: sounder.cpp, solenoid.cpp
const PartKind& horn();
const PartKind& buzzer();
const PartKind& solenoid();

// Drives: motor.cpp, mechanism.cpp, lock_actuator.cpp
const PartKind& motor();
const PartKind& mechanism();
const PartKind& lock_actuator();

// Senders: speed_sender.cpp, temperature_sender.cpp, hall_switch.cpp
const PartKind& speed_sender();
const PartKind& temperature_sender();
const PartKind& hall_switch();

// Control units: control_unit.cpp
const PartKind& control_unit();

// Joints: joints.cpp
const PartKind& coupling();
const PartKind& splice();
const PartKind& ground_point();

}  // namespace halfsplit::model::kinds
