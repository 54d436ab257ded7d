#pragma once

#include <cstdint>
#include <unordered_map>

#include "engine/diagnosis/next_test/outlook.h"

namespace halfsplit::test {

/// The least expected minutes by trying everything, from the definition alone: any test, or the repair of any
/// group, at any time. Shares nothing with the plans it judges. Borrows the outlook: at most 16 groups and 32
/// places, states from -1 to 254. Nothing is opened at first, and the vehicle is in no state.
class EveryPlan {
  public:
    explicit EveryPlan(const diagnosis::Outlook& outlook);

    double least_minutes();

  private:
    double probability(unsigned set) const;
    double access(int place, unsigned open) const;
    double of(unsigned set, unsigned open, int state);
    double by_repair(unsigned set, unsigned open, int state);
    double by_test(unsigned set, unsigned open, int state);

    const diagnosis::Outlook& outlook_;
    std::unordered_map<std::uint64_t, double> known_;
};

}  // namespace halfsplit::test
