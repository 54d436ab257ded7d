#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/simulation/settle.h"
#include "ui/view/table.h"

namespace halfsplit::view {

/// Colour and size: "RDGN 2.5".
std::string wire_text(const model::Wire& wire);

/// A point a lead can touch, with what a technician wants beside its potential.
struct PointRow {
    std::string point;
    std::string title;  ///< what it is on: "Horn relay"
    std::string place;  ///< title of the place, "" where none
    std::string wires;  ///< colour and size of the wires there: "RD 2.5, RD 1.5"
    double volts = 0;
    bool floating = false;
    std::optional<double> part_side_volts;  ///< where the plug contact drops more than it should, or is open
};

/// All wired points, in the author's order.
std::vector<PointRow> point_rows(const model::Circuit& circuit, const simulation::Settled& settled);

/// A current path of one name: a wire, or an element of a part.
struct CurrentRow {
    std::string name;
    std::string title;
    double amperes = 0;
    double drop_v = 0;
    double watts = 0;
    bool is_wire = false;
};

/// Wires and elements of parts, in the author's order, those with current first class, the rest left to the
/// caller.
std::vector<CurrentRow> current_rows(const model::Circuit& circuit, const simulation::Settled& settled);

/// Part and condition ("K2", "energised") of every part that has more than one.
std::vector<std::pair<std::string, std::string>> conditions_of(const model::Circuit& circuit,
                                                               const simulation::Settled& settled);

/// "S1 run, K2 energised": the parts that are not as they rest.
std::string conditions_text(const model::Circuit& circuit, const simulation::Settled& settled);

/// Points as a table; where `expected` is given (the same points without the faults), it stands beside.
Table point_table(const std::vector<PointRow>& rows, const std::vector<PointRow>* expected);
Table current_table(const std::vector<CurrentRow>& rows);

}  // namespace halfsplit::view
