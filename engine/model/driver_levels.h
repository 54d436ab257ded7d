#pragma once

/// What an output of a control unit does, as the conditions of its elements count it.
namespace halfsplit::model {

inline constexpr int kDriverOff = 0;
inline constexpr int kDriverOn = 1;   ///< a half-bridge: joined to supply
inline constexpr int kDriverLow = 2;  ///< a half-bridge joined to ground

}  // namespace halfsplit::model
