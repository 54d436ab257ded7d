#pragma once

#include <vector>

#include "engine/model/circuit.h"

namespace halfsplit::diagnosis {

/// A value that differs from one sound vehicle to the next: a number of a part, or the factor on a wire's
/// resistance. It is normally distributed around what the author gives, and 99 of 100 lie within the
/// tolerance.
struct Scatter {
    int part = -1;    ///< index into the circuit, or -1
    int number = -1;  ///< of the part, see model::Part::numbers
    int wire = -1;    ///< index into the circuit, or -1
    double nominal = 0;
    double sigma = 0;
};

/// Half the width, in standard deviations, of the middle 99 % of a normal distribution (any table of it).
inline constexpr double kMiddle99 = 2.5758293;

/// Everything that scatters, parts first, in the author's order. What has no tolerance, or is 0 or not given,
/// does not.
std::vector<Scatter> scatter_of(const model::Circuit& circuit);

/// What a value that lies so many standard deviations off its nominal is; never outside what its kind allows.
double scattered(const model::Circuit& circuit, const Scatter& scatter, double sigmas);

}  // namespace halfsplit::diagnosis
