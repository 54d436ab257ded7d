#pragma once

#include <cstddef>

namespace halfsplit::xml {

// Circuit files come from strangers: what a reader holds in memory and how long it works is bounded here.

/// Of one file, and of a circuit with all it includes. A large vehicle is below 2 MiB; this leaves room for
/// generated ones and still loads in about a second. Whoever opens files should not read further than this.
inline constexpr std::size_t kMaxBytes = std::size_t{64} << 20U;

/// Of one file, and of a circuit with all it includes: ten times the largest vehicle we could draw up
/// (20 000 wires and their parts), about 100 MB once read.
inline constexpr int kMaxElements = 500'000;

/// Circuits need 5 levels, state charts nest deeper. Trees are walked recursively, so this bounds the stack.
inline constexpr int kMaxDepth = 64;

/// Part kinds have fewer than 20; duplicates are found by comparing each with each.
inline constexpr int kMaxAttributes = 64;

/// Bytes of one attribute's value: a long title is 200. Longer ones would only flood the messages.
inline constexpr std::size_t kMaxAttributeBytes = 4096;

/// Nobody reads more at once; beyond them they are counted no further.
inline constexpr std::size_t kMaxErrors = 100;

/// Includes within includes: vehicle, system, device leave five to spare. Reading an include recurses.
inline constexpr int kMaxIncludeDepth = 8;

}  // namespace halfsplit::xml
