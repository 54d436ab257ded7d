#pragma once

#include <string_view>

#include "engine/model/circuit.h"
#include "engine/network/network.h"

namespace halfsplit::tracing {

/// What a branch is to somebody who follows a circuit with a finger on the diagram.
enum class Role {
    conductor,   ///< a wire, a splice, a ground strap, a jumper lead
    connection,  ///< a contact of a plug or coupling
    contact,     ///< a switching contact: of a switch, a relay, a driver
    protection,  ///< a fuse, a breaker
    resistor,    ///< there to be in series with something else
    valve,       ///< a diode: passes from its first terminal to its second
    fault,       ///< what a fault has put there: a short, a leak, a bad joint
    load,        ///< what the current is there for: ends a path
    source
};

/// From the origin of the branch, its law and the IEC 81346-2 letter of its part's kind.
Role role_of(const model::Circuit& circuit, const network::NetworkBranch& branch);

std::string_view role_name(Role role);

}  // namespace halfsplit::tracing
