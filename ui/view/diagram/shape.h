#pragma once

#include <string>
#include <string_view>

#include "engine/model/circuit.h"

namespace halfsplit::view::diagram {

/// What a symbol looks like, after IEC 60617 as far as it has one (from memory).
enum class Shape {
    battery,
    alternator,
    fuse,
    circuit_breaker,
    fusible_link,
    relay,
    flasher,
    contact,          ///< two pins, moved by hand or by a mechanism
    common_contacts,  ///< several contacts with one pin in common
    contact_table,    ///< any other switch: which pins each position joins
    push_contact,
    thermo_contact,
    resistor,
    resistor_chain,
    variable_resistor,
    ntc,
    ptc,
    heater,
    lamp,
    twin_lamp,
    led,
    diode,
    capacitor,
    horn,
    buzzer,
    solenoid,
    motor,
    mechanism,
    lock_actuator,
    sender,
    temperature_sender,
    box,  ///< control units, with the names of their pins inside
    coupling,
    splice,
    ground
};

/// How the pins of a kind are arranged.
enum class Arrangement {
    two_pole,    ///< one above the other
    unit,        ///< on the edges of a box, turned towards what they join
    one_common,  ///< one on one side, the others opposite
    chain,       ///< side by side, each turned where it is needed
    relay,       ///< coil beside contact
    contacts,    ///< a symbol for each contact of a coupling
    point,       ///< a splice or ground point
    none         ///< a mechanism
};

/// How one kind of part is drawn.
struct KindPicture {
    std::string_view element;  ///< of the part kind: "fuse"
    Shape shape = Shape::box;
    Arrangement arrangement = Arrangement::two_pole;
    std::string_view value;  ///< the number that stands beside the id, "" for none: "rated-w"
    std::string_view unit;   ///< as it is written there: "W"
};

/// nullptr where the kind has no picture.
const KindPicture* find_picture(std::string_view element);

/// As of a part: a switch is drawn by its contacts. Throws std::logic_error for a kind without a picture.
KindPicture picture_of(const model::Part& part);

/// The contacts of a switch in each position: the author's, or those the kind has by its nature.
std::vector<std::vector<model::Contact>> contacts_of(const model::Part& part);

/// The pin that is in every contact of a switch, -1 where there is none.
int common_pin(const model::Part& part);

/// "15 A", "" where the kind shows no value or the part has none.
std::string value_text(const model::Part& part);

}  // namespace halfsplit::view::diagram
