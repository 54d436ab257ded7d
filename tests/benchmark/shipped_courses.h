#pragma once

namespace halfsplit::benchmark_of {

/// Runs circuits as we ship them through time and prints how much quicker than the clock that is, on one
/// core, without reading the file and coming to the state it begins in.
void print_shipped_courses();

}  // namespace halfsplit::benchmark_of
