#pragma once

#include <span>
#include <vector>

#include "engine/network/nodal/branch.h"

namespace halfsplit::test {

/// Potentials of a linear network in 113-bit arithmetic, rounded at the end: the textbook's nodal matrix,
/// diagonal and all, by Gaussian elimination in order of minimum degree. Shares nothing with the solver but
/// the leakage.
std::vector<double> quadruple_potentials(int node_count, std::span<const network::Branch> branches);

}  // namespace halfsplit::test
