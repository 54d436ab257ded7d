#pragma once

#include <set>
#include <string>
#include <vector>

#include "engine/tracing/load_group.h"

namespace halfsplit::tracing {

/// A load that works now and would not any more.
struct LostLoad {
    std::string load;  ///< name of the load group
    int part = 0;
    bool loses_feed = false;
    bool loses_ground = false;
    std::string because_of;  ///< "K2" where it is lost only because that part drops out in its turn
};

/// Which loads hang on which single elements: those every way from a supply to one terminal goes through, or
/// every way from the other to ground, in the present conditions. A load works where one terminal is fed and
/// another is grounded, each without a load between.
class Dependence {
  public:
    Dependence(const Wiring& wiring, const std::vector<LoadGroup>& loads);

    /// What is lost if this one branch opens: a wire, a contact, a fuse.
    std::vector<LostLoad> lost_if_opens(int branch) const;
    /// What is lost if this node falls apart: a splice, a crimp.
    std::vector<LostLoad> lost_if_parts(int vertex) const;

  private:
    /// One way round a load works: which single elements its feed and its ground go through, sorted.
    struct Working {
        std::vector<int> feed;
        std::vector<int> ground;
    };
    std::vector<LostLoad> lost_without(int element) const;

    const std::vector<LoadGroup>& loads_;
    int vertex_count_;
    std::vector<std::vector<Working>> working_;  ///< per load; none where it does not work now
};

/// Sources that give current or can at once: an alternator that stands still is none.
std::vector<bool> ready_supplies(const Wiring& wiring);

/// What is lost if several branches open at once (a relay pulled out, a coupling parted), found by following
/// what is left.
std::vector<LostLoad> lost_without(const Wiring& wiring, const std::vector<LoadGroup>& loads,
                                   const std::set<int>& branches);

/// What is lost in consequence: relays whose coils are among what is lost drop out, and so on until nothing
/// more changes. Control units are not followed: what they do without a feed is their behaviour's business.
std::vector<LostLoad> lost_in_consequence(const Wiring& wiring, const std::vector<LoadGroup>& loads,
                                          const std::set<int>& branches, int parted_vertex);

}  // namespace halfsplit::tracing
