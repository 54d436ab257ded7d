#include "engine/model/kinds/thermistor.h"

#include <cmath>

#include "engine/base/constants.h"

namespace halfsplit::model {

double ntc_ohm(double ohm_at_25, double b_k, double temperature_degc) {
    return ohm_at_25 *
           std::exp(b_k * (1 / (temperature_degc + kZeroCelsiusK) - 1 / (kThermistorDegC + kZeroCelsiusK)));
}

}  // namespace halfsplit::model
