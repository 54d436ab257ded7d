#pragma once

#include <vector>

#include "engine/diagnosis/dictionary/finding_places.h"
#include "engine/network/network.h"
#include "engine/network/nodal/solver.h"

namespace halfsplit::diagnosis {

/// Whether a curved law's branch conducts: one that blocks still has a current, if ever so small.
bool conducts(const network::Tangent& line);

/// A voltmeter reads the open voltage, divided between itself and the resistance that the network has there.
/// That is exact where the network is straight lines; a lamp or diode that the meter's own current moves
/// makes it doubtful.
class MeterDoubt {
  public:
    /// At the last solution, which it borrows with the solver. `meters`: the solver's branches from this one
    /// on, which do not conduct, one for each of `voltages`.
    MeterDoubt(const network::Network& network, const std::vector<FindingPlaces::Voltage>& voltages,
               int first_meter, const network::Solver& solver, const network::Solution& solution);

    /// What the network has between the leads.
    double ohm(int meter) const { return ohm_[static_cast<std::size_t>(meter)]; }

    /// Whether there is anything at all that a meter at this voltage could move; is_justified() takes longer.
    bool is_possible(int meter, double open_v) const;

    /// Whether a meter, at this voltage before it was connected, could read otherwise by more than a
    /// tenth of a microvolt.
    bool is_justified(int meter, double open_v);

    /// A curved law that a meter could move.
    struct Port {
        int branch = 0;
        const model::Law* law = nullptr;
        network::Tangent line;
        double at_v = 0;
        double ohm = 0;
        std::vector<double> spread;  ///< see network::Solver; empty until asked for
    };
    const std::vector<Port>& ports() const { return ports_; }

  private:
    double between(Port& port, int meter) const;

    const std::vector<FindingPlaces::Voltage>& voltages_;
    const network::Solver& solver_;
    std::vector<double> ohm_;
    std::vector<Port> ports_;
};

}  // namespace halfsplit::diagnosis
