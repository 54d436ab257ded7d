#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "engine/model/law.h"
#include "engine/model/part_view.h"
#include "engine/network/fault.h"

namespace halfsplit::network {

/// Something joined to the circuit at two points: an instrument's inside. A point is a pin ("M3.1",
/// "M3.1@part"), `body`, or a node of the instrument's own, its name beginning with '*'.
struct Attachment {
    std::string name;
    std::string from;
    std::string to;
    model::Law law;
};

/// Something in series: the lead of an ammeter in a wire ("W31") or a plug contact ("M3.1") that was parted.
struct Insertion {
    std::string where;
    double ohm = 0;
    bool open = false;
};

/// All that stands beside the circuit: what people and the world do to it, what is broken, what is connected.
struct Situation {
    std::map<std::string, std::string, std::less<>> positions;  ///< part id -> position or condition id
    model::Quantities quantities;                        ///< those not named have the circuit's own value
    std::map<std::string, double, std::less<>> travels;  ///< mechanism id -> percent of its travel
    std::vector<Fault> faults;
    std::set<std::string, std::less<>> unplugged;  ///< parts, or names of plugs
    std::set<std::string, std::less<>> pulled;     ///< fuses and relays taken out of their sockets
    std::vector<Attachment> attachments;
    std::vector<Insertion> insertions;
};

}  // namespace halfsplit::network
