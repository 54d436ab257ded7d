#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace halfsplit::benchmark_of {

/// Simulates diagnoses of the circuits named ("horn"; all where none is) and prints how they end: faults
/// drawn by their rates, one or two at once, in vehicles whose parts scatter, read with meters that err, with
/// and without nonsense among the readings, and the same faults with test points in random order. `count`
/// faults each. Before that, a few faults and tests at a time, against the exact optimum.
void print_diagnoses(std::vector<std::string> circuits, int count, std::uint64_t seed);

}  // namespace halfsplit::benchmark_of
