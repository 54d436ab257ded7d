#pragma once

#include <vector>

#include "engine/network/network.h"

namespace halfsplit::diagnosis {

/// Switches off all outputs of control units that have lost their power. True if there were any on.
bool lets_go_without_power(const network::Network& network, std::vector<int>& conditions);

}  // namespace halfsplit::diagnosis
