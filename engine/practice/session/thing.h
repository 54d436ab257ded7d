#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "engine/model/circuit.h"
#include "engine/network/fault.h"

namespace halfsplit::practice {

/// Something one can take in hand: a part, a wire, a plug contact, a plug.
struct Thing {
    network::FaultSubject subject = network::FaultSubject::part;
    int part = -1;  ///< also the part a contact or plug belongs to
    int pin = -1;
    int wire = -1;
    std::string name;
};

/// "K2", "W12", "K2.85", "X20.3", "X20". A message with near names where there is no such thing.
tl::expected<Thing, std::string> find_thing(const model::Circuit& circuit, std::string_view name);

/// A part in the message says what was expected.
tl::expected<Thing, std::string> find_part_of(const model::Circuit& circuit, std::string_view name,
                                              const std::vector<std::string_view>& elements);

/// Whether the fault sits on it, so that a new one, or mending it, is a repair.
bool sits_on(const network::Fault& fault, const Thing& thing);

/// Where one has to be to get at it: an index into the circuit's places, or -1. A wire is mended at the end
/// that is easier to get at.
int place_of_thing(const model::Circuit& circuit, const Thing& thing);

/// Minutes from starting to repair it to having it repaired, see diagnosis::Effort.
double repair_minutes(const model::Circuit& circuit, const Thing& thing);

/// What is printed on a fuse, in A.
double rated_a(const model::Part& fuse);

}  // namespace halfsplit::practice
