#pragma once

namespace halfsplit::view {

/// A plug contact that drops more than this gets both its sides shown. A sound one drops well below (common
/// practice: nothing to speak of at a small-wire connection).
inline constexpr double kPlugDropWorthShowingV = 0.05;

}  // namespace halfsplit::view
