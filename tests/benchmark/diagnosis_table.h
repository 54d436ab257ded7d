#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace halfsplit::benchmark_of {

struct Draws {
    int count = 0;
    std::uint64_t seed = 1;
    bool with_complaint = false;  ///< something that can be seen is told beforehand, as a customer does
    std::string manner;           ///< only this one, as the table calls it; all where empty
};

/// Simulates diagnoses of the circuits named ("horn"; all where none is) and prints how they end: faults
/// drawn by their rates, one or two at once, in vehicles whose parts scatter, read with meters that err, with
/// and without nonsense among the readings, and the same faults with test points in random order. Before
/// that, a few faults and tests at a time, against the exact optimum. How far it is goes to stderr. Throws
/// std::invalid_argument for a manner that is none.
void print_diagnoses(std::vector<std::string> circuits, const Draws& draws);

}  // namespace halfsplit::benchmark_of
