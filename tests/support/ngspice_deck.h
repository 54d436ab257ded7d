#pragma once

#include <span>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/network/nodal/branch.h"

namespace halfsplit::test {

/// A network as an ngspice deck: node i is "n<i>", the body is 0, every node has the leakage of the solver.
/// Branch k is R<k> if it is a resistance, B<k> if behavioural, D<k> if a junction, V<k> and R<k> in series
/// if a source. Branches that do not conduct are left out. For comparing values the tolerances are far below
/// ngspice's own, so that what differs is not its. For comparing times they are its own, and the leakage is
/// its option `rshunt`.
/// Its diode bends Shockley's law in reverse (near the knee its current is a tenth larger, which shows where
/// nothing but reverse current holds a node); values_by_shockley writes the law itself instead.
enum class DeckFor { values, values_by_shockley, times };
std::vector<std::string> ngspice_deck(int node_count, std::span<const network::Branch> branches,
                                      DeckFor purpose = DeckFor::values);

/// ngspice's name of a node.
std::string ngspice_node(int node);

/// Runs a deck and reads the potentials of n0 … n<node_count - 1>, or ngspice's error.
tl::expected<std::vector<double>, std::string> ngspice_run(int node_count,
                                                           const std::vector<std::string>& deck);

/// Potentials of all nodes as ngspice computes them, or its error. Regulated sources, flat on both sides, can
/// keep ngspice from converging out of nothing; if so and a guess is given (one potential a node), it is
/// tried as starting point (.nodeset, which ngspice lets go of before it converges for good).
tl::expected<std::vector<double>, std::string> ngspice_potentials(int node_count,
                                                                  std::span<const network::Branch> branches,
                                                                  std::span<const double> guess_v = {});

}  // namespace halfsplit::test
