#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

#include "engine/diagnosis/candidates.h"

using namespace halfsplit::diagnosis;

namespace {

// Components of the three multipliers and two adders.
constexpr int kA1 = 0;
constexpr int kA2 = 1;
constexpr int kM1 = 2;
constexpr int kM2 = 3;
constexpr int kM3 = 4;

const std::vector<ComponentSet> kConflicts{{kA1, kM1, kM2}, {kA1, kA2, kM1, kM3}};
const std::vector<double> kPriors(5, 0.01);

ComponentSet set_of(unsigned mask, int count) {
    ComponentSet set;
    for (int each = 0; each < count; ++each)
        if ((mask >> static_cast<unsigned>(each)) & 1U) set.push_back(each);
    return set;
}

bool explains(unsigned mask, const std::vector<ComponentSet>& conflicts) {
    for (const ComponentSet& conflict : conflicts) {
        bool hit = false;
        for (const int each : conflict) hit = hit || ((mask >> static_cast<unsigned>(each)) & 1U) != 0;
        if (!hit) return false;
    }
    return true;
}

double prior_of(unsigned mask, const std::vector<double>& priors) {
    double product = 1;
    for (std::size_t each = 0; each < priors.size(); ++each)
        product *= ((mask >> each) & 1U) != 0 ? priors[each] : 1 - priors[each];
    return product;
}

}  // namespace

TEST_CASE("Three multipliers and two adders have the four minimal candidates published") {
    // de Kleer & Williams, AIJ 32(1):97-130, 1987, section 2 (from memory, and derived from the two
    // conflicts).
    const auto candidates = minimal_candidates(kConflicts, 5);
    CHECK(candidates == std::vector<ComponentSet>{{kA1}, {kM1}, {kA2, kM2}, {kM2, kM3}});
    CHECK(minimal_candidates(kConflicts, 1) == std::vector<ComponentSet>{{kA1}, {kM1}});
}

TEST_CASE("Three multipliers and two adders are believed faulty as summing all 27 candidates says") {
    // Derived: the sum over all 27 sets that explain both conflicts, each component faulty with 0.01.
    const auto beliefs = candidate_beliefs(kConflicts, kPriors);
    CHECK(candidate_probability({kA1}, kPriors, beliefs) == Approx(0.478026426).epsilon(1e-8));
    CHECK(candidate_probability({kM1}, kPriors, beliefs) == Approx(0.478026426).epsilon(1e-8));
    CHECK(candidate_probability({kA2, kM2}, kPriors, beliefs) == Approx(0.004828550).epsilon(1e-6));
    CHECK(candidate_probability({kM2, kM3}, kPriors, beliefs) == Approx(0.004828550).epsilon(1e-6));
    CHECK(beliefs.component[kM2] == Approx(0.019608814).epsilon(1e-7));
    CHECK(beliefs.component[kM3] == Approx(0.014780264).epsilon(1e-7));
    CHECK(beliefs.component[kA2] == Approx(0.014780264).epsilon(1e-7));
}

TEST_CASE("Candidates and beliefs are those that trying all sets gives") {
    std::mt19937 generator(7);
    constexpr int kCount = 7;
    std::uniform_int_distribution<unsigned> any_set(1, (1U << kCount) - 1);
    for (int round = 0; round < 200; ++round) {
        std::vector<ComponentSet> conflicts;
        for (unsigned i = 0; i < 1 + generator() % 5; ++i)
            conflicts.push_back(set_of(any_set(generator), kCount));
        std::vector<double> priors;
        for (int i = 0; i < kCount; ++i) priors.push_back(0.05 + 0.1 * static_cast<double>(generator() % 5));
        std::vector<ComponentSet> minimal;
        double consistent = 0;
        std::vector<double> faulty(kCount, 0.0);
        for (unsigned mask = 0; mask < (1U << kCount); ++mask) {
            if (!explains(mask, conflicts)) continue;
            consistent += prior_of(mask, priors);
            bool is_minimal = true;
            for (unsigned each = 0; each < kCount; ++each) {
                if (((mask >> each) & 1U) == 0) continue;
                faulty[each] += prior_of(mask, priors);
                is_minimal = is_minimal && !explains(mask & ~(1U << each), conflicts);
            }
            if (is_minimal) minimal.push_back(set_of(mask, kCount));
        }
        auto found = minimal_candidates(conflicts, kCount);
        std::ranges::sort(found);
        std::ranges::sort(minimal);
        CHECK(found == minimal);
        const auto beliefs = candidate_beliefs(conflicts, priors);
        CHECK(beliefs.consistent == Approx(consistent).epsilon(1e-12));
        for (std::size_t each = 0; each < kCount; ++each)
            CHECK(beliefs.component[each] == Approx(faulty[each] / consistent).epsilon(1e-12));
    }
}

TEST_CASE("No conflict leaves the empty candidate and an empty conflict leaves none") {
    CHECK(minimal_candidates({}, 3) == std::vector<ComponentSet>{{}});
    CHECK(minimal_candidates({{}}, 3).empty());
    CHECK_THROWS_AS(candidate_beliefs({{}}, kPriors), std::invalid_argument);
    CHECK_THROWS_AS(candidate_beliefs({{5}}, kPriors), std::invalid_argument);
    CHECK(candidate_beliefs({}, kPriors).component[0] == Approx(0.01));
}
