#include "engine/model/kinds/junction.h"

#include <cmath>

namespace halfsplit::model {

Junction junction_through(double forward_v, double at_a, double slope_v) {
    return {at_a / std::expm1(forward_v / slope_v), slope_v};
}

}  // namespace halfsplit::model
