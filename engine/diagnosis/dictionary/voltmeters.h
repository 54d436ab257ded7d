#pragma once

#include <map>
#include <optional>
#include <span>
#include <vector>

#include "engine/diagnosis/dictionary/finding_places.h"
#include "engine/diagnosis/dictionary/meter_doubt.h"
#include "engine/network/nodal/solver.h"

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

    /// The same for a network from which others will differ in little: remembers what meters read
    /// that had to be connected, and where diodes went with them.
    bool learn(const network::Network& network, network::Solver& solver, const network::Solution& solution,
               std::span<float> row);

    /// How many had to be connected, so far.
    int connected() const { return connected_; }

  private:
    /// A meter that could have moved something in the network learned from, and what it read.
    struct Known {
        double open_v = 0;
        double ohm = 0;
        bool was_connected = false;
        double reading_v = 0;
        double volts_per_volt = 0;  ///< how the reading follows the open voltage
        std::vector<network::Tangent> moved;
    };
    struct KnownPort {
        int branch = 0;
        model::Law law;
        double at_v = 0;
        double ohm = 0;
    };
    bool are_known(const std::vector<MeterDoubt::Port>& ports) const;
    std::optional<double> recall(int meter, double open_v, double ohm,
                                 const std::vector<MeterDoubt::Port>& ports) const;
    void remember(int meter, double open_v, double ohm);
    bool connect(int meter, network::Solver& solver, float& reading);

    const FindingPlaces& places_;
    int first_meter_;
    int connected_ = 0;
    bool learns_ = false;
    std::vector<int> doubtful_;
    network::Solution with_meter_;
    std::map<int, Known> known_;
    std::vector<KnownPort> known_ports_;
};

}  // namespace halfsplit::diagnosis
