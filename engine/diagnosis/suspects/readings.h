#pragma once

#include <vector>

namespace halfsplit::diagnosis {

/// What somebody found.
struct Reading {
    int state = 0;     ///< index into Dictionary::states
    int finding = 0;   ///< index into Dictionary::findings
    double value = 0;  ///< V or A as the instrument showed it; of a sign, the number of the Sign
    /// The customer complained of it and the workshop saw it too: it is not as it was, and hardly a mistake
    /// (Assumptions::mistaken_complaint).
    bool is_complaint = false;

    friend bool operator==(const Reading&, const Reading&) = default;
};

/// All that is known about a vehicle.
struct Evidence {
    std::vector<Reading> readings;
    std::vector<int> cleared;  ///< indices into Dictionary::faults: looked at or repaired, it was not that
    bool complaint = false;    ///< something about it is not as in the sound vehicle
};

/// The same readings in an order of their own, each once: what was written down twice says no more, and what
/// is also complained of is a complaint.
std::vector<Reading> distinct_readings(std::vector<Reading> readings);

}  // namespace halfsplit::diagnosis
