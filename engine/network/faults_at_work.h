#pragma once

#include <vector>

#include "engine/model/circuit.h"
#include "engine/network/network.h"
#include "engine/network/terminals.h"

namespace halfsplit::network {

/// The part's numbers as its faults leave them (drift, short-circuited turns, a flat battery).
std::vector<double> faulted_numbers(const model::Part& part, int part_index,
                                    const std::vector<Fault>& faults);

/// What the part suffers from that its own kind knows how to show.
model::Ailments ailments_of(int part_index, const std::vector<Fault>& faults);

/// Works one fault's effect into a network under construction, whose branches still join terminals.
/// A message where the circuit cannot have it (a short to supply without any source).
tl::expected<void, std::string> apply_fault(const model::Circuit& circuit, const Fault& fault,
                                            Terminals& terminals, Network& network);

/// Puts `ohm` in series with a branch: into its law where that has a resistance, else as a branch of its own.
void add_in_series(Network& network, Terminals& terminals, int branch, double ohm, const std::string& name);

/// Parts all contacts of a part's plug, or of a coupling.
void open_contacts(const model::Circuit& circuit, int part, Network& network);

/// Branches of this name: one, or several laws of one element.
std::vector<int> branches_named(const Network& network, std::string_view name);

}  // namespace halfsplit::network
