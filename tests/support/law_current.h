#pragma once

#include <algorithm>
#include <cmath>

#include "engine/model/law.h"

/// The current each law of engine/model/law.h gives at a voltage, written down once more from the formulas
/// there: tests compare with this, not with the solver's own code.
namespace halfsplit::test {

inline double current_a(const model::Resistance& law, double v) {
    return v / law.ohm;
}

inline double current_a(const model::Source& law, double v) {
    return (v - law.emf_v) / law.ohm;
}

inline double current_a(const model::Cell& law, double v) {
    return (v - law.emf_v) / (v < law.emf_v ? law.ohm : law.charge_ohm);
}

inline double current_a(const model::RegulatedSource& law, double v) {
    return -std::clamp((law.emf_v - v) / law.ohm, 0.0, law.max_a);
}

inline double current_a(const model::Filament& law, double v) {
    const double d = 1 / (std::pow(law.cold_ratio, -1 / 0.225) - 1);
    const double share = v / law.rated_v;
    const double rated_ohm = law.rated_v * law.rated_v / law.rated_w;
    return v / (rated_ohm * std::pow((d + share * share) / (d + 1), 0.225));
}

/// By bisection: the thermal balance rises with r.
inline double current_a(const model::WarmingFilament& law, double v) {
    const model::Filament& lamp = law.filament;
    const double d = 1 / (std::pow(lamp.cold_ratio, -1 / 0.225) - 1);
    const double square = v / lamp.rated_v * v / lamp.rated_v;
    double low = 1e-9;
    double high = 1 + law.known + law.step_share + square;
    while (std::nextafter(low, high) < high) {
        const double r = low + (high - low) / 2;
        const double losses = (d + 1) * std::pow(r, 1 / 0.225) - d;
        (r * (r - law.known) + law.step_share * (losses - square) < 0 ? low : high) = r;
    }
    return v * lamp.rated_w / (lamp.rated_v * lamp.rated_v * high);
}

inline double current_a(const model::Junction& law, double v) {
    return law.saturation_a * std::expm1(v / law.slope_v);
}

inline double current_a(const model::RunningMotor& law, double v) {
    if (v < 0) return -current_a(law, -v);
    const double breakaway_v = law.breakaway_a * law.ohm;
    if (v <= breakaway_v) return v / law.ohm;
    return law.breakaway_a + (law.load_a - law.breakaway_a) * (v - breakaway_v) / (law.load_v - breakaway_v);
}

}  // namespace halfsplit::test
