#pragma once

namespace halfsplit::benchmark_of {

/// Carries the same networks through the same 2 s here and in ngspice, each with its own steps at several
/// tolerances, in interleaved rounds, and prints errors against a far tighter run, processor times, and how
/// much quicker is what errs no more.
void print_course_comparison();

}  // namespace halfsplit::benchmark_of
