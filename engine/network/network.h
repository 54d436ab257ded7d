#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "engine/model/circuit.h"
#include "engine/network/nodal/branch.h"
#include "engine/network/situation.h"

namespace halfsplit::network {

/// What a branch is part of.
enum class BranchSource { element, contact, wire, fault, instrument };

/// A branch of the network with its origin in the circuit.
struct NetworkBranch {
    Branch electrical;  ///< `conducts` as the faults leave it; conditions are in `part` and `conducts_in`
    std::string name;   ///< "W31", "M3.1" (a plug contact), "K2.coil", a fault's text, an instrument's name
    BranchSource source = BranchSource::element;
    int part = -1;                 ///< index into the circuit, or -1
    int wire = -1;                 ///< index into the circuit, or -1
    std::vector<int> conducts_in;  ///< conditions of `slot`; empty = all
    int slot = -1;                 ///< where Network::conditions holds what decides; the part, or an output
    model::Store store;
    model::SlowChange change;
    bool always = false;     ///< a contact welded shut: conducts in every condition
    bool switching = false;  ///< a switching contact of a part (model::Element::contact)
};

/// A part's trigger, resolved to branches.
struct NetworkTrigger {
    int part = 0;
    model::Trigger trigger;
    std::vector<int> branches;  ///< those of the element it watches
};

/// An output of a control unit.
struct NetworkDriver {
    int part = 0;
    int pin = 0;
    int slot = 0;  ///< in Network::conditions, see engine/model/driver_levels.h
};

struct NetworkOscillator {
    int part = 0;
    model::Oscillator oscillator;
    std::vector<int> watched;  ///< branches
};

/// Something that a rotor moves.
struct NetworkTravel {
    int part = 0;     ///< the mechanism, or the motor itself
    int motor = 0;    ///< the part whose rotor moves it
    int rotor = 0;    ///< that branch
    int blocked = 0;  ///< the branch that stands for it while it stands blocked
    model::Travel travel;
    model::Blocking blocking;    ///< the motor's conditions
    int latch = -1;              ///< the part that has to pull before it leaves where it is latched, or -1
    int latch_pulled = 0;        ///< that part's condition while it does
    bool is_motor_held = false;  ///< somebody has said in which condition the motor is
    double full_speed_v = 0;     ///< the sound motor's back-EMF in ordinary work at nominal voltage
};

struct NetworkFollower {
    int part = 0;
    int travel = 0;  ///< index into Network::travels
    model::Follower follower;
};

/// A circuit in a situation, as electrical nodes joined by branches. Ideal shorts (0 ohm) are merged into one
/// node; every point still maps to its node.
struct Network {
    int node_count = 0;
    std::vector<NetworkBranch> branches;
    std::vector<std::string> node_names;  ///< the first point of each node
    std::map<std::string, int, std::less<>>
        point_nodes;                  ///< "M3.1", "M3.1@part", "J14", "body" -> node or kBody
    std::vector<std::string> points;  ///< those a wire or a mate makes worth listing, in the author's order
    /// One per part: what positions and faults ask for, else at rest. Then one per output of a control unit.
    std::vector<int> conditions;
    std::vector<bool> forced;  ///< one per condition: a fault holds it there
    std::vector<NetworkTrigger> triggers;
    std::vector<NetworkDriver> drivers;
    std::vector<NetworkOscillator> oscillators;
    std::vector<NetworkTravel> travels;
    std::vector<double> travel_shares;  ///< one per travel: where it stands
    std::vector<NetworkFollower> followers;
    std::set<std::pair<int, int>> dead_inputs;  ///< part and pin of control units
    model::Quantities quantities;               ///< all of the circuit's, as they count now
    std::set<std::string, std::less<>> felt;    ///< those of them that branches depend on

    bool conducts(const NetworkBranch& branch, const std::vector<int>& in_conditions) const;
};

/// What the situation asks for that the circuit does not have (a misspelt part, an unknown position) is an
/// error.
tl::expected<Network, Diagnostics> build_network(const model::Circuit& circuit, const Situation& situation);

}  // namespace halfsplit::network
