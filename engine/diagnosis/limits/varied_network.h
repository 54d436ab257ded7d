#pragma once

#include <utility>
#include <vector>

#include "engine/model/circuit.h"
#include "engine/network/network.h"

namespace halfsplit::diagnosis {

/// What a part, or a wire, becomes in a network if its numbers are others: the laws of its branches and the
/// levels its triggers act at, in the order of the network's. The network must have no faults in it.
class VariedNetwork {
  public:
    VariedNetwork(const model::Circuit& circuit, const network::Network& network);

    /// A branch and what its law becomes.
    using BranchLaw = std::pair<int, model::Law>;
    std::vector<BranchLaw> laws(int part, const std::vector<double>& numbers) const;
    std::vector<int> branches(int part) const;
    int branch_of_wire(int wire) const { return branch_of_wire_[static_cast<std::size_t>(wire)]; }
    /// The law of a wire with this factor on its resistance.
    BranchLaw wire_law(int wire, double factor) const;

    /// A trigger of the network and where it acts.
    struct Levels {
        int trigger = 0;
        double rise = 0;
        double fall = 0;
    };
    std::vector<Levels> levels(int part, const std::vector<double>& numbers) const;

  private:
    const model::Circuit& circuit_;
    const network::Network& network_;
    std::vector<int> first_element_;  ///< per part: its first branch that is no plug contact
    std::vector<int> elements_;       ///< per part: how many
    std::vector<int> first_trigger_;  ///< per part: its first trigger
    std::vector<int> branch_of_wire_;
    std::vector<double> load_factor_;  ///< per branch: how much heavier what its rotor moves makes it
};

}  // namespace halfsplit::diagnosis
