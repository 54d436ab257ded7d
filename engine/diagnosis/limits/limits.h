#pragma once

#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/diagnosis/limits/observation.h"
#include "engine/model/circuit.h"
#include "engine/simulation/settle.h"

namespace halfsplit::diagnosis {

/// Where 99 of 100 sound vehicles lie, as far as the circuit behaves in a straight line around its nominal
/// values.
struct Limits {
    double nominal_v = 0;
    double low_v = 0;
    double high_v = 0;
    /// The circuit does not behave so: something that scatters moves it otherwise up than down, such as a
    /// motor on the brink of standing still. The limits are a guide then, no promise.
    bool bends = false;
};

/// A part that scatter may bring into another condition: what it watches lies close to where it acts. Beyond
/// that the limits of everything that depends on it say nothing.
struct Doubt {
    int part = 0;
    double margin = 0;  ///< from where it acts, in standard deviations of both
    double chance = 0;  ///< that a sound vehicle is on the other side
};

struct StateLimits {
    std::vector<Limits> limits;  ///< one per observation
    std::vector<Doubt> doubts;   ///< the nearest first
};

/// By first-order sensitivities: each scattering value by itself is moved a standard deviation up and down,
/// the network solved anew, and what that moves adds up by squares (JCGM 100, 5.1.2). `settled` must be
/// without faults, unplugged parts and instruments.
tl::expected<StateLimits, Diagnostics> limits_in_state(const model::Circuit& circuit,
                                                       const simulation::Settled& settled,
                                                       const std::vector<Observation>& observations);

}  // namespace halfsplit::diagnosis
