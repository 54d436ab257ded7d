#include "ui/view/ticks.h"

#include <algorithm>
#include <cmath>

namespace halfsplit::view {

double tick_step(double most, int steps) {
    const double rough = std::max(most, 1e-9) / steps;
    const double power = std::pow(10, std::floor(std::log10(rough)));
    for (const double factor : {1.0, 2.0, 5.0})
        if (rough <= factor * power) return factor * power;
    return 10 * power;
}

}  // namespace halfsplit::view
