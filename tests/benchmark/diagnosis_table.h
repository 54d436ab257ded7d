#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace halfsplit::benchmark_of {

struct Draws {
    int count = 0;
    std::uint64_t seed = 1;
    bool with_complaint = false;  ///< something that can be seen is told beforehand, as a customer does
};

/// Simulates diagnoses of the circuits named ("horn"; all where none is) and prints how they end: faults
/// drawn by their rates, one or two at once, in vehicles whose parts scatter, read with meters that err, with
/// and without nonsense among the readings, and the same faults with test points in random order. Before
/// that, a few faults and tests at a time, against the exact optimum.
void print_diagnoses(std::vector<std::string> circuits, const Draws& draws);

}  // namespace halfsplit::benchmark_of
