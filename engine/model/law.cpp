#include "engine/model/law.h"

#include <algorithm>
#include <cmath>

namespace halfsplit::model {

// The most a turning motor may draw of its blocked current: closer to it, it would hardly turn.
constexpr double kMostOfBlocked = 0.95;

double cold_share(const Filament& law) {
    return 1 / (std::pow(law.cold_ratio, -1 / kFilamentExponent) - 1);
}

RunningMotor heavier(const RunningMotor& law, double factor) {
    const double most_a = kMostOfBlocked * law.load_v / law.ohm;
    RunningMotor heavy = law;
    heavy.load_a = std::min(most_a, factor * law.load_a);
    heavy.breakaway_a = std::min(factor * law.breakaway_a, heavy.load_a);
    return heavy;
}

}  // namespace halfsplit::model
