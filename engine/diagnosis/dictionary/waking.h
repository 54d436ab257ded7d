#pragma once

#include <vector>

#include "engine/model/circuit.h"
#include "engine/network/network.h"
#include "engine/network/nodal/solver.h"
#include "engine/simulation/operating_point.h"

namespace halfsplit::diagnosis {

/// A relay that is in may feed from behind the unit that holds it in: put a blown fuse into a vehicle as it
/// stands, and all goes on. But it was blown when somebody switched on, and then nothing would have come. So
/// faults are looked at from where no relay is in, no unit drives anything and what would be on its way is
/// where it begins; then units that find their supply do what they do in the sound vehicle, as often as that
/// gives others theirs, and what has its motor turn is on its way.
class Waking {
  public:
    /// Of the sound vehicle, in the conditions that it stands in; `at_rest`: those that build_network()
    /// gives.
    static Waking of(const model::Circuit& circuit, const network::Network& network,
                     const std::vector<int>& standing, const std::vector<int>& at_rest);

    /// From asleep, in a network that may have faults, by a solver as simulation::come_to_rest() takes it;
    /// false where it does not come to rest. Relays that have to be helped in, and stay, begin as they stand.
    bool come_to_rest_asleep(const model::Circuit& circuit, const network::Network& network,
                             network::Solver& solver, simulation::Rest& rest) const;
    /// The same from where the sound vehicle stands.
    bool come_to_rest_standing(const model::Circuit& circuit, const network::Network& network,
                               network::Solver& solver, simulation::Rest& rest) const;

  private:
    std::vector<int> asleep(const network::Network& network) const;
    bool wake(const network::Network& network, simulation::Rest& rest) const;

    std::vector<int> standing_;
    std::vector<int> at_rest_;
    std::vector<char> stays_;      ///< per condition: begins as it stands
    std::vector<double> motor_v_;  ///< per travel: the voltage that keeps it on its way, 0 where it is not
};

}  // namespace halfsplit::diagnosis
