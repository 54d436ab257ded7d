#pragma once

namespace halfsplit::benchmark_of {

/// Runs the same jobs here, in ngspice (in this process, analysis alone) and in sparse libraries, in
/// interleaved rounds, and prints medians, ratios and how factoring and solving grows with the size of the
/// network.
void print_comparison();

}  // namespace halfsplit::benchmark_of
