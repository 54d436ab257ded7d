#include "engine/model/conductor.h"

#include <algorithm>

#include "engine/base/constants.h"

namespace halfsplit::model {

double copper_factor(double temperature_degc) {
    return std::max(0.01, 1 + kCopperTemperaturePerK * (temperature_degc - kRoomTemperatureDegc));
}

double conductor_ohm(double area_mm2, double length_m, double temperature_degc) {
    const double at_room = kStrandingFactor * kCopperResistivityOhmMm2PerM / area_mm2 * length_m;
    return at_room * copper_factor(temperature_degc);
}

}  // namespace halfsplit::model
