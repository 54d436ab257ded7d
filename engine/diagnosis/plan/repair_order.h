#pragma once

#include <vector>

namespace halfsplit::diagnosis::plan {

/// One of several possible causes, exactly one of which is there. Costs are of one kind, minutes or money.
struct Cause {
    double probability = 0;
    double observation_cost = 0;  ///< to look whether it is this one
    double repair_cost = 0;
};

/// Causes are looked at one after the other until the one that is there is found and repaired.
struct RepairOrder {
    std::vector<int> order;  ///< indices of causes
    double expected_cost = 0;
};

/// Expected cost of this order: each cause is looked at if none before was the one, and repaired if it is.
/// `order` holds each cause once; throws std::invalid_argument otherwise, or where a probability or cost is
/// below 0 or not finite.
double expected_repair_cost(const std::vector<Cause>& causes, const std::vector<int>& order);

/// The cheapest order: by probability per observation cost, the largest first (Kadane & Simon, AIJ 9(3),
/// 1977); what repairing costs adds the same to every order. Equals stay as they are; what costs nothing to
/// look at comes first.
RepairOrder best_repair_order(const std::vector<Cause>& causes);

/// Whether to repair a cause without looking first: it costs less to repair needlessly now and then than to
/// look each time, that is, repair < observation + probability x repair. Afterwards it shows anyhow whether
/// the complaint is gone.
bool repairing_beats_looking(const Cause& cause);

}  // namespace halfsplit::diagnosis::plan
