#pragma once

#include <vector>

#include "engine/network/network.h"

namespace halfsplit::diagnosis {

/// Whether a control unit has power, as its condition says; one without a supply pin always has.
bool has_power(const network::Network& network, int unit, const std::vector<int>& conditions);

/// Switches off all outputs of control units that have lost their power. True if there were any on.
bool lets_go_without_power(const network::Network& network, std::vector<int>& conditions);

}  // namespace halfsplit::diagnosis
