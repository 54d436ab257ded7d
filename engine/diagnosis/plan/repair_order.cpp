#include "engine/diagnosis/plan/repair_order.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <stdexcept>

#include "engine/base/index.h"

namespace halfsplit::diagnosis::plan {
namespace {

void check(const std::vector<Cause>& causes) {
    const auto is_amount = [](double number) { return number >= 0 && std::isfinite(number); };
    for (const Cause& cause : causes)
        if (!is_amount(cause.probability) || !is_amount(cause.observation_cost) ||
            !is_amount(cause.repair_cost))
            throw std::invalid_argument("a cause has a probability or cost that is no amount");
}

void check(const std::vector<Cause>& causes, const std::vector<int>& order) {
    std::vector<int> every(causes.size());
    std::iota(every.begin(), every.end(), 0);
    if (!std::ranges::is_permutation(order, every))
        throw std::invalid_argument("an order does not hold each cause once");
}

}  // namespace

double expected_repair_cost(const std::vector<Cause>& causes, const std::vector<int>& order) {
    check(causes);
    check(causes, order);
    double not_found_yet = 0;
    for (const Cause& cause : causes) not_found_yet += cause.probability;
    double cost = 0;
    for (const int each : order) {
        const Cause& cause = causes[at(each)];
        cost += not_found_yet * cause.observation_cost + cause.probability * cause.repair_cost;
        not_found_yet -= cause.probability;
    }
    return cost;
}

RepairOrder best_repair_order(const std::vector<Cause>& causes) {
    check(causes);
    RepairOrder best;
    best.order.resize(causes.size());
    std::iota(best.order.begin(), best.order.end(), 0);
    std::ranges::stable_sort(best.order, std::ranges::greater(), [&](int each) {
        const Cause& cause = causes[at(each)];
        return cause.observation_cost > 0 ? cause.probability / cause.observation_cost
                                          : std::numeric_limits<double>::infinity();
    });
    best.expected_cost = expected_repair_cost(causes, best.order);
    return best;
}

bool repairing_beats_looking(const Cause& cause) {
    return cause.repair_cost < cause.observation_cost + cause.probability * cause.repair_cost;
}

}  // namespace halfsplit::diagnosis::plan
