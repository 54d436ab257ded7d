#include "engine/model/conductor.h"

#include "engine/base/constants.h"

namespace halfsplit::model {

double conductor_ohm(double area_mm2, double length_m, double temperature_degc) {
    const double warmth = 1 + kCopperPerK * (temperature_degc - kReferenceDegC);
    return kCopperOhmMm2PerM * kStrandingFactor * length_m / area_mm2 * warmth;
}

}  // namespace halfsplit::model
