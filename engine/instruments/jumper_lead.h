#pragma once

#include <string>

#include <tl/expected.hpp>

#include "engine/instruments/instrument.h"

namespace halfsplit::instruments {

/// Two clips, a metre of cable and a 10 A fuse (from memory).
inline constexpr double kJumperOhm = 0.03;
inline constexpr double kJumperFuseA = 10;
inline constexpr const char* kJumperName = "jumper";

/// The lead as it is joined to two points.
network::Attachment jumper_between(const std::string& from, const std::string& to);

/// What flows through the lead in the moment it is joined, before anything else in the circuit has had time
/// to act: its own fuse is the quickest there is.
tl::expected<double, Diagnostics> first_current_a(const Bench& bench, const network::Attachment& jumper);

}  // namespace halfsplit::instruments
