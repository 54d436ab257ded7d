#pragma once

#include <optional>
#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/diagnosis/limits/observation.h"
#include "engine/diagnosis/limits/varied_network.h"
#include "engine/network/nodal/solver.h"
#include "engine/simulation/settle.h"

namespace halfsplit::diagnosis {

/// A circuit in the state it has settled to, with values that may be another vehicle's: solved again and
/// again over one analysed network, in the same conditions. Borrows the circuit and what it settled to, which
/// must be without faults.
class Vehicle {
  public:
    static tl::expected<Vehicle, Diagnostics> nominal(const model::Circuit& circuit,
                                                      const simulation::Settled& settled);

    void set_part(int part, const std::vector<double>& numbers);
    /// `factor` on its resistance.
    void set_wire(int wire, double factor);
    /// As it was settled to.
    void reset_part(int part);
    void reset_wire(int wire);
    /// False where there is no operating point.
    bool solve();

    double reading_v(const Observation& observation) const;

    int triggers() const { return static_cast<int>(levels_.size()); }
    /// How far what a trigger watches lies on its present side of where it acts; below 0 the part would go to
    /// another condition. nullopt where it watches nothing that conducts, or a fault or a hand decides.
    std::optional<double> margin(int trigger) const;

  private:
    Vehicle(const model::Circuit& circuit, const simulation::Settled& settled);
    double potential_v(int node) const;
    std::optional<double> watched(int trigger) const;
    bool is_above(int trigger) const;

    const simulation::Settled& settled_;
    VariedNetwork varied_;
    network::Solver solver_;
    network::Solution solution_;
    std::vector<VariedNetwork::Levels> levels_;  ///< one per trigger
    std::vector<char> hangs_on_rise_;            ///< one per trigger
};

}  // namespace halfsplit::diagnosis
