#pragma once

namespace halfsplit::benchmark_of {

/// For every circuit we ship: how many of the vehicles drawn by Monte Carlo lie within the limits of each
/// point (99 of 100 is what limits promise), and how many relays and the like may be in another condition.
void print_coverage();

}  // namespace halfsplit::benchmark_of
