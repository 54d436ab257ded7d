#pragma once

#include <vector>

#include "engine/network/network.h"
#include "engine/network/solver.h"

namespace halfsplit::diagnosis {

/// A voltmeter reads the open voltage, divided between itself and the resistance that the network has there.
/// That is exact where the network is straight lines; a lamp or diode that the meter's own current moves
/// makes it doubtful.
class MeterDoubt {
  public:
    /// At the last solution. `meters`: branches of the solver that do not conduct.
    MeterDoubt(const network::Network& network, const std::vector<int>& meters, const network::Solver& solver,
               const network::Solution& solution);

    /// What the network has between the leads.
    double ohm(int meter) const { return ohm_[static_cast<std::size_t>(meter)]; }

    /// Whether a meter with `ohm` in the network between its leads could read otherwise by more than a
    /// microvolt.
    bool is_justified(double open_v, double ohm) const;

  private:
    /// A curved law that a meter could move.
    struct Port {
        const model::Law* law;
        double at_v;
        double ohm;
    };
    std::vector<double> ohm_;
    std::vector<Port> ports_;
};

}  // namespace halfsplit::diagnosis
