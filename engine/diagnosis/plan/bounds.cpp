#include "engine/diagnosis/plan/bounds.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace halfsplit::diagnosis::plan {
double huffman_length(std::span<const double> rising_weights, int arity) {
    // Weights rise and so do the sums of the nodes made of them: the lightest is at the head of one of two
    // queues.
    std::vector<double> made;
    made.reserve(rising_weights.size());
    std::size_t next_weight = 0;
    std::size_t next_made = 0;
    const auto take_lightest = [&] {
        const bool from_weights =
            next_made == made.size() ||
            (next_weight < rising_weights.size() && rising_weights[next_weight] <= made[next_made]);
        return from_weights ? rising_weights[next_weight++] : made[next_made++];
    };
    double length = 0;
    std::size_t left = rising_weights.size();
    const std::size_t most = at(arity);
    // The first node takes as many as leave full nodes to all others.
    std::size_t takes = left < 2 ? 0 : (left - 2) % (most - 1) + 2;
    while (left > 1) {
        double node = 0;
        for (std::size_t i = 0; i < takes; ++i) node += take_lightest();
        made.push_back(node);
        length += node;
        left -= takes - 1;
        takes = most;
    }
    return length;
}

void TestsLeft::add(double cost, int outcome_count) {
    cost_sums.push_back(cost_sums.back() + cost);
    arity = std::max(arity, outcome_count);
}

double huffman_bound(const SearchSpace& space, std::span<const int> set, const TestsLeft& left) {
    if (set.size() < 2) return 0;
    std::vector<double> weights;
    weights.reserve(set.size());
    double whole = 0;
    for (const int each : set) {
        weights.push_back(space.priors[at(each)]);
        whole += weights.back();
    }
    if (whole <= 0) return 0;
    const double length = huffman_length(weights, std::min(left.arity, static_cast<int>(set.size()))) / whole;
    const std::size_t test_count = left.cost_sums.size() - 1;
    const std::size_t full = std::min(static_cast<std::size_t>(length), test_count);
    const double begun = full < test_count ? (length - static_cast<double>(full)) *
                                                 (left.cost_sums[full + 1] - left.cost_sums[full])
                                           : 0;
    return whole * (left.cost_sums[full] + begun);
}

double entropy_bound(std::vector<Insight> insights, double needed_bits) {
    const auto price_a_bit = [](const Insight& each) {
        return each.cost / std::log2(static_cast<double>(each.outcome_count));
    };
    std::ranges::sort(insights, {}, price_a_bit);
    double cost = 0;
    for (const Insight& each : insights) {
        const double bought = std::min(each.gain_bits, needed_bits);
        cost += bought * price_a_bit(each);
        needed_bits -= bought;
        if (needed_bits <= 0) break;
    }
    return cost;
}

double set_entropy_bits(const SearchSpace& space, std::span<const int> set, double prior) {
    double sum = 0;
    for (const int each : set) {
        const double share = space.priors[at(each)];
        if (share > 0) sum -= share * std::log2(share / prior);
    }
    return std::max(sum, 0.0);
}

SetBounds bounds_of(const SearchSpace& space, Splitter& splitter, const ClassSet& set, double prior) {
    SetBounds bounds;
    std::vector<Insight> insights;
    for (int column = 0; column < static_cast<int>(space.columns.size()); ++column) {
        const auto parts = splitter.weigh(column, set);
        if (parts.size() < 2) continue;
        const double cost = space.columns[at(column)].cost;
        const int outcome_count = static_cast<int>(parts.size());
        bounds.columns.push_back(column);
        bounds.left.add(cost, outcome_count);
        insights.push_back({cost, weighted_entropy_bits(parts), outcome_count});
    }
    bounds.huffman = huffman_bound(space, set, bounds.left);
    bounds.entropy = entropy_bound(std::move(insights), set_entropy_bits(space, set, prior));
    return bounds;
}

SetBounds bounds_of(const SearchSpace& space) {
    Splitter splitter(space);
    const ClassSet all = space.all_classes();
    return bounds_of(space, splitter, all, space.prior_of(all));
}

}  // namespace halfsplit::diagnosis::plan
