#pragma once

#include <map>
#include <span>
#include <vector>

#include "engine/diagnosis/dictionary/finding_places.h"
#include "engine/network/solver.h"

namespace halfsplit::diagnosis {

/// Reads all voltages of a solved network, as a voltmeter would show them. It connects one only where the
/// open voltage and the resistance there do not say what it reads (MeterDoubt).
class Voltmeters {
  public:
    /// `first_meter`: the solver's branches from this one on are the meters of these places, see
    /// branches_with_meters. Borrows the places.
    Voltmeters(const FindingPlaces& places, int first_meter) : places_(places), first_meter_(first_meter) {}

    /// Puts the voltages at the solver's last solution into a row. False where there is no solution with a
    /// meter connected. Leaves the solver's tangents as they were.
    bool read(const network::Network& network, network::Solver& solver, const network::Solution& solution,
              std::span<float> row);

    /// The same for a network from which others will differ in little: remembers where diodes go with meters
    /// connected.
    bool learn(const network::Network& network, network::Solver& solver, const network::Solution& solution,
               std::span<float> row);

    /// How many had to be connected, so far.
    int connected() const { return connected_; }

  private:
    bool connect(int meter, network::Solver& solver, float& reading);

    const FindingPlaces& places_;
    int first_meter_;
    int connected_ = 0;
    bool learns_ = false;
    std::vector<int> doubtful_;
    network::Solution with_meter_;
    std::map<int, std::vector<network::Tangent>> moved_by_;  ///< per meter
};

}  // namespace halfsplit::diagnosis
