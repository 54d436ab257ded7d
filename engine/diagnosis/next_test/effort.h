#pragma once

#include <vector>

#include "engine/diagnosis/dictionary/dictionary.h"
#include "engine/model/circuit.h"

namespace halfsplit::diagnosis {

/// Minutes that things take, besides getting at the place (model::Place::access_min). All from memory, of an
/// experienced technician with the diagram at hand.
struct Effort {
    double sign_min = 0.2;     ///< to look or listen
    double voltage_min = 0.5;  ///< to find the point, put two leads on and read
    double current_min = 1;    ///< to part a bundle and close a clamp around one wire
    double state_min = 0.5;    ///< to bring the vehicle to another state

    double look_min = 1;           ///< to see, at its place, whether a suspect is the one
    double replace_fuse_min = 1;   ///< what sits in a socket
    double plug_in_min = 1;        ///< a plug that came off
    double mend_contact_min = 15;  ///< a new terminal on a wire
    double mend_wire_min = 25;     ///< to find the spot, mend and wrap it
    double replace_part_min = 10;  ///< two screws and a plug
    /// A repair that was not it: what was taken apart goes back, a part was bought for nothing, and somebody
    /// wants to know why.
    double needless_min = 60;
};

/// Minutes to repair such a thing, without getting at it. `part` does not matter for wires.
double repair_minutes(const model::Circuit& circuit, network::FaultSubject subject, int part,
                      const Effort& effort);

/// What tests and repairs cost in one vehicle.
struct Workshop {
    Effort effort;
    std::vector<double> access_min;  ///< one per place
    std::vector<int> test_place;     ///< one per finding, -1 = needs nothing opened
    std::vector<int> fault_place;    ///< one per fault of the dictionary, -1 = within reach
    std::vector<double> repair_min;  ///< one per fault, without getting at it
};

/// Lamps, motors and horns are seen, heard or felt without opening anything; fuses are where they are. A wire
/// is mended at the place of its two ends that is easier to get at.
Workshop workshop_for(const model::Circuit& circuit, const Dictionary& dictionary, const Effort& effort = {});

/// Something that can be read: a finding in a state.
struct Test {
    int state = 0;
    int finding = 0;

    friend bool operator==(const Test&, const Test&) = default;
};

/// Where a technician stands.
struct Bench {
    std::vector<char> open;  ///< one per place: it has been got at
    int state = -1;          ///< the vehicle is in, -1 = in none of them
};

/// Nothing opened yet.
Bench fresh_bench(const Workshop& workshop);

/// Minutes until this reading is taken, and with the place, and the state, as they are then.
double test_minutes(const Workshop& workshop, const Bench& bench, Finding::Kind kind, const Test& test);
void go_to_test(const Workshop& workshop, Bench& bench, const Test& test);

}  // namespace halfsplit::diagnosis
