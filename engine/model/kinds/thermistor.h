#pragma once

namespace halfsplit::model {

/// R = R25 exp(B (1/T - 1/298.15 K)), the B-parameter equation (IEC 60539-1, from memory).
double ntc_ohm(double ohm_at_25, double b_k, double temperature_degc);

}  // namespace halfsplit::model
