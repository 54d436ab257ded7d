#pragma once

#include <string>
#include <vector>

#include "engine/diagnosis/sheet/sheet.h"
#include "ui/view/table.h"

namespace halfsplit::view {

// What a sheet says, in words and cells, for whatever it is written to.

/// What is measured or looked at, with the unit it is best read in on paper: volts to hundredths, and drops
/// and grounds in whole millivolts, limits rounded outwards.
struct SheetCells {
    std::string at;        ///< "M7.1", "M7.1 to M7.2"
    std::string part;      ///< "Entry step motor"
    std::string wires;     ///< "RD 2.5, RD 1.5"
    std::string against;   ///< "body"; "" of signs and fuses
    std::string expected;  ///< "12.31 V", "lit", "floating"
    std::string limits;    ///< "12.05 … 12.54"; "" where there are none
    std::string unit;      ///< what both are in: "V", "mV"; "" of signs
    double low_v = 0;      ///< the limits as they stand there
    double high_v = 0;
    std::string allowed;  ///< "200 mV", "(200 mV)" where limits count; "" where practice says nothing
    std::string fuse;     ///< "F7"
    std::string ground;   ///< "E3"
};
SheetCells sheet_cells(const model::Circuit& circuit, const diagnosis::SheetRow& row);

/// How to put the circuit into a state: "S1 Ignition switch: run", "Road speed: 50 km/h", "wait 5 s".
std::vector<std::string> steps_text(const model::Circuit& circuit, const model::OperatingState& state);

/// "K2 Horn relay, here energised, is at rest in 3 of 100 sound vehicles: the limits do not hold then."
std::string doubt_text(const model::Circuit& circuit, const diagnosis::SheetDoubt& doubt);

/// With the parts named that it is about.
std::string caution_text(const model::Circuit& circuit, const diagnosis::Caution& caution);

/// "K2 Horn relay"
std::string part_text(const model::Part& part);

/// One row a state and thing to look at or measure, columns `state,place,at,part,wires,against,instrument,
/// expected,low,high,unit,measured,complaint,allowed,fuse,ground,note`; voltages in V.
/// diagnosis::read_readings reads it back.
Table sheet_table(const model::Circuit& circuit, const diagnosis::Sheet& sheet);

/// For a terminal.
std::string sheet_text(const model::Circuit& circuit, const diagnosis::Sheet& sheet);

/// One JSON object: circuit, title, cautions, states with their steps, doubts and rows.
std::string sheet_json(const model::Circuit& circuit, const diagnosis::Sheet& sheet);

}  // namespace halfsplit::view
