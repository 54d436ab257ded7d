#pragma once

#include <string>
#include <vector>

#include "engine/tracing/find_paths.h"
#include "engine/tracing/wiring.h"

namespace halfsplit::tracing {

/// One branch of a path, as somebody walks it.
struct Step {
    int branch = -1;
    std::string name;   ///< "W31", "M3.1" (a plug contact), "K2.30-87", a fault's text
    std::string title;  ///< of the part: "Horn relay"; "" for wires
    Role role = Role::conductor;
    int part = -1;  ///< index into the circuit, or -1
    int wire = -1;  ///< index into the circuit, or -1
    int from_node = network::kBody;
    int to_node = network::kBody;
    std::string from;        ///< the point it leaves: "F7.2"
    std::string to;          ///< the point it comes to: "J14", "body"
    std::string from_place;  ///< title of the place, "" where not said
    std::string to_place;
    std::string colour;   ///< IEC 60757 letters, wires only
    double area_mm2 = 0;  ///< wires only
    double from_v = 0;
    double to_v = 0;
    bool to_floats = false;  ///< nothing drives the point it comes to
    double current_a = 0;    ///< positive the way current should flow: from supply, or to ground
    bool conducts = true;    ///< false: open in the present conditions
};

/// A path in order from where it starts.
struct Path {
    std::string start;  ///< a point: "M3.1@part"
    std::string end;    ///< "G1.+", "body"
    double start_v = 0;
    std::vector<Step> steps;
    std::vector<int> loads = {};   ///< parts it goes through as loads, usually none
    bool against_current = false;  ///< walked from a load to its supply
    bool interrupted = false;      ///< a step of it is open in the present conditions
};

/// `against_current`: the route is walked from a load to its supply, so current should come towards the
/// walker.
Path describe_path(const Wiring& wiring, const Route& route, bool against_current);

/// The point of this name's side that a branch has at a vertex: the pin of its own part or wire, else the
/// first point of the node.
std::string point_at(const Wiring& wiring, int branch, int vertex);

/// Title of the place a part is in, its id where it has none, "" where not said.
std::string place_title(const model::Circuit& circuit, int part);

}  // namespace halfsplit::tracing
