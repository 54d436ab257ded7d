#pragma once

#include <vector>

#include "engine/diagnosis/sheet/sheet.h"

namespace halfsplit::view {

/// Voltages closer than this are the same to who looks for a fault: a battery sags by as much between states.
/// From memory.
inline constexpr double kSameV = 0.1;

/// For each state and row of it the earlier state of the sheet (its index there) where the same point already
/// reads the same, or -1. Nobody measures rail 30 anew in every state, so paper need not repeat it. Signs,
/// drops and ways to ground are never taken as repeats: they are what a state is for.
std::vector<std::vector<int>> repeats_in(const diagnosis::Sheet& sheet);

}  // namespace halfsplit::view
