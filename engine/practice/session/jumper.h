#pragma once

namespace halfsplit::practice {

/// Two clips, a metre of cable and a 10 A fuse, as the jumper among the instruments has them. The name is
/// that of its branch in a network.
inline constexpr double kJumperOhm = 0.03;
inline constexpr double kJumperFuseA = 10;
inline constexpr const char* kJumper = "jumper";

}  // namespace halfsplit::practice
