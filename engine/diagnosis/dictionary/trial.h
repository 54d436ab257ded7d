#pragma once

#include <map>
#include <set>
#include <span>
#include <vector>

#include "engine/diagnosis/dictionary/state_base.h"
#include "engine/diagnosis/dictionary/voltmeters.h"
#include "engine/network/nodal/solver.h"
#include "engine/simulation/operating_point.h"

namespace halfsplit::diagnosis {

/// Two nodes, the lower first.
using NodePair = std::pair<int, int>;
NodePair pair_of(const network::FaultChange::Leak& leak);

/// Per stage, between which nodes there may be one.
using StagedLeaks = std::vector<std::set<NodePair>>;
/// Adds those of a fault; `leaks` has all stages.
void add_leaks(const std::vector<network::FaultChange>& change, StagedLeaks& leaks);

/// A vehicle on its way into a state that gets one fault after the other: what a fault changes is put into
/// networks that stand, their solvers eliminate anew what that touches, and afterwards all is as before, to
/// the bit. Borrows the base. Not for two threads at once.
class Trial {
  public:
    Trial(const model::Circuit& circuit, const StateBase& base, const StagedLeaks& leaks);

    enum class Result {
        read,
        no_rest,     ///< the circuit does not come to rest
        overloaded,  ///< a fuse holds for as long as the state lasts: whether it did before has to be seen
    };
    /// One row, with a fault (its changes in each stage) or without (nullptr).
    Result read(const std::vector<network::FaultChange>* change, std::span<float> row);

    /// How many voltmeters had to be connected one by one, so far.
    int connected() const { return voltmeters_.connected(); }

  private:
    struct Stage {
        Stage(const network::Network& base, double lasts_s, const FindingPlaces& places,
              const std::set<NodePair>& leaks_there);
        network::Network network;
        std::map<NodePair, int> leaks;  ///< their branches
        network::Solver solver;
        std::vector<int> conditions;  ///< that the sound vehicle comes into the stage with
    };
    void begin(Stage& stage);
    void put_in(const network::FaultChange& change, Stage& stage) const;
    bool is_fed_from_behind(const Stage& stage, const network::FaultChange& change) const;
    void take_out(const network::FaultChange& change, const network::Network& sound, Stage& stage) const;
    bool come_to_rest(Stage& stage, const network::FaultChange* change);
    std::vector<int> held(const Stage& stage) const;
    bool holds_more_than_sound(const Stage& stage) const;
    bool read_at_rest(Stage& stage, std::span<float> row);

    const model::Circuit& circuit_;
    const StateBase& base_;
    std::vector<Stage> stages_;
    Voltmeters voltmeters_;
    simulation::Rest rest_;
    bool is_sound_ = false;  ///< while the sound vehicle is looked at for what follows
    std::vector<int> held_in_sound_;
};

}  // namespace halfsplit::diagnosis
