#pragma once

#include <span>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/network/nodal/branch.h"

namespace halfsplit::test {

/// Potentials by ngspice for networks in which it runs in circles between two pieces of a law made of
/// straight pieces (cells, regulated sources, motors): each is written as the piece it works on at the
/// `expected` potentials, and an error is returned if ngspice's own voltages then lie on another piece. Laws
/// are monotone, so there is one operating point, and pieces that agree are its proof. Junctions are written
/// as Shockley's law.
tl::expected<std::vector<double>, std::string> ngspice_potentials_by_pieces(
    int node_count, std::span<const network::Branch> branches, std::span<const double> expected);

}  // namespace halfsplit::test
