#pragma once

#include <string>
#include <vector>

#include "engine/diagnosis/place_of.h"
#include "engine/diagnosis/sheet/walk.h"

namespace halfsplit::diagnosis {

/// A point a lead gets at from the back of a plug.
struct TestPoint {
    model::PinRef pin;
    std::string name;  ///< "M3.1"
    int vertex = 0;    ///< of tracing::Wiring
    int place = -1;    ///< index into the circuit, -1 where not said
};

/// Wired pins, in the author's order, without those nobody gets at or would measure twice: no splices, which
/// are within the harness, and no ground points, where a load's own ground pin tells more; of a coupling's
/// contact the side further from supply; of pins joined by wires alone, in one place, the one furthest from
/// supply, because it proves most.
std::vector<TestPoint> test_points(const tracing::Wiring& wiring, const Walk& walk);

/// The point of that name, wherever it is. It must exist.
TestPoint test_point(const tracing::Wiring& wiring, const std::string& name);

}  // namespace halfsplit::diagnosis
