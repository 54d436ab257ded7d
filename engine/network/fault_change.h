#pragma once

#include <optional>
#include <vector>

#include <tl/expected.hpp>

#include "engine/network/draft.h"
#include "engine/network/fault.h"
#include "engine/network/network.h"
#include "engine/network/situation.h"

namespace halfsplit::network {

/// What a fault changes in a network that stands, over the same nodes. What it changes besides, in the course
/// of time only (a sluggish relay, an input that a control unit does not see), is not in it.
struct FaultChange {
    struct Changed {
        int branch = 0;
        model::Law law;
        bool conducts = true;  ///< NetworkBranch::electrical.conducts
        bool always = false;   ///< NetworkBranch::always
    };
    /// A resistance between two nodes that was not there.
    struct Leak {
        int from = kBody;
        int to = kBody;
        double ohm = 0;
    };
    /// A part that is held in a condition.
    struct Held {
        int part = 0;
        int condition = 0;
    };
    struct Level {
        int trigger = 0;
        model::Trigger acts;
    };
    std::vector<Changed> branches;
    std::vector<Leak> leaks;
    std::vector<Held> held;
    std::vector<Level> levels;

    bool is_nothing() const { return branches.empty() && leaks.empty() && held.empty() && levels.empty(); }
};

/// What two faults change together; nullopt where they meddle with one thing, so that it matters how both
/// are worked in.
std::optional<FaultChange> together(FaultChange one, const FaultChange& other);

/// What becomes of a law that a branch has instead of the one it was built with, once it has crept (model/
/// slow_change.h) as far as the branch as it now is.
model::Law crept(const model::Law& law, const model::Law& built, const NetworkBranch& now);

/// Finds what faults change in one network, by working each into its draft (the same code that build_network
/// uses) and looking at what is different then, without building anything anew.
class FaultChanges {
  public:
    /// `network` is what build_network gives for the circuit and situation, or what has become of it in the
    /// course of time (its laws may have crept). Neither may have faults or instruments.
    static tl::expected<FaultChanges, Diagnostics> in(const model::Circuit& circuit, const Network& network,
                                                      const Situation& situation);

    /// nullopt where the network has to be built anew: the fault needs a node of its own, parts what was one
    /// node, changes what a part is made of, or the circuit cannot have it.
    std::optional<FaultChange> of(const Fault& fault);

  private:
    FaultChanges(const model::Circuit& circuit, const Network& network, Draft draft);
    bool change_numbers(const Fault& fault, FaultChange& change);
    bool change_laws(int part, const model::Electrics& now, FaultChange& change) const;
    void change_levels(int part, const model::Electrics& now, FaultChange& change) const;
    void change_travels(int part, const model::Electrics& now, FaultChange& change) const;
    model::Law loaded(int rotor, model::Law law, int but, double factor) const;
    bool set_law(int branch, const model::Law& law, FaultChange& change) const;
    bool work_in(const Fault& fault, FaultChange& change);
    bool is_touched(int branch) const;
    bool compare(int branch, FaultChange& change) const;
    bool add_leak(const NetworkBranch& added, FaultChange& change) const;
    void restore(const Fault& fault);
    int node_of(int terminal) const;

    struct Kept {
        Branch electrical;
        bool always = false;
    };
    const model::Circuit& circuit_;
    const Network& network_;
    Draft draft_;
    int terminals_ = 0;              ///< before any fault
    std::vector<Kept> kept_;         ///< per branch, before any fault
    std::vector<model::Law> built_;  ///< per branch, before it crept
    std::vector<int> touched_;       ///< branches that the present fault changes
    std::vector<int> first_element_;
    std::vector<int> first_trigger_;
};

}  // namespace halfsplit::network
