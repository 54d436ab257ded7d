#pragma once

#include <span>
#include <vector>

#include "engine/diagnosis/plan/splitter.h"

namespace halfsplit::diagnosis::plan {

// What no test order can be cheaper than. All are expected costs weighted by the prior of the set they are
// for, as everything in the searches: the root's is the expected cost itself.

/// Sum over all leaves of weight times depth in the best tree whose nodes have at most `arity` (from 2)
/// branches (Huffman, Proc. IRE 40(9):1098-1101, 1952). `rising_weights` rise.
double huffman_length(std::span<const double> rising_weights, int arity);

/// Costs of the tests that may be left, summed from the cheapest up, and how many outcomes one of them has at
/// most.
struct TestsLeft {
    std::vector<double> cost_sums{0};  ///< of the 0, 1, 2... cheapest
    int arity = 2;
    void add(double cost, int outcome_count);  ///< costs rise from call to call
};

/// Huffman bound with any costs (Pattipati & Alexandridis, IEEE Trans. SMC 20(4):872-887, 1990): nobody does
/// a test twice, so a way of d tests costs at least what the d cheapest do, which bends upwards in d; hence
/// the average way costs at least what one of the average (Huffman) length does.
double huffman_bound(const SearchSpace& space, std::span<const int> set, const TestsLeft& left);

/// What a test can tell about a set.
struct Insight {
    double cost = 0;
    double gain_bits = 0;   ///< entropy of its outcome, weighted by the prior of the set
    int outcome_count = 0;  ///< that can occur
};

/// Entropy bound: all `needed_bits` (weighted) have to come from tests. Done with probability x, a test gives
/// at most x log2(outcomes) bits, and at most what it gives to the whole set; so the least cost is that of
/// buying bits where they are cheapest first. With equal two-way costs it is the entropy (Shannon; as in the
/// 1990 paper).
double entropy_bound(std::vector<Insight> insights, double needed_bits);

/// Entropy in bits of which class of the set it is, weighted by the set's prior.
double set_entropy_bits(const SearchSpace& space, std::span<const int> set, double prior);

/// Both bounds of a set, and what they were found from.
struct SetBounds {
    double huffman = 0;
    double entropy = 0;
    std::vector<int> columns;  ///< those that tell something about the set
    TestsLeft left;            ///< the same, counted
};
SetBounds bounds_of(const SearchSpace& space, Splitter& splitter, const ClassSet& set, double prior);

/// Of a whole table.
SetBounds bounds_of(const SearchSpace& space);

}  // namespace halfsplit::diagnosis::plan
