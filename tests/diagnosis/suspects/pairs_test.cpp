#include <catch2/catch.hpp>

#include <algorithm>

#include "engine/diagnosis/suspects/pairs.h"
#include "engine/diagnosis/suspects/rank.h"
#include "tests/diagnosis/suspects/hand_made.h"

using namespace halfsplit;
using diagnosis::FaultPair;
using diagnosis::FaultsInState;
using diagnosis::Hypotheses;
using diagnosis::Ranking;

namespace {

/// Four lamps, each with a fault of its own and a common one.
const std::vector<std::vector<double>> kLamps{{12, 12, 12, 12}, {0, 12, 12, 12}, {12, 0, 12, 12},
                                              {12, 12, 0, 12},  {12, 12, 12, 0}, {0, 0, 0, 0}};

/// Whatever either fault takes away is gone.
std::vector<diagnosis::PredictedRow> both(const diagnosis::Dictionary& dictionary,
                                          std::span<const FaultsInState> wanted) {
    std::vector<diagnosis::PredictedRow> rows;
    for (const auto& [faults, state] : wanted) {
        diagnosis::PredictedRow row;
        for (int finding = 0; finding < static_cast<int>(dictionary.findings.size()); ++finding)
            row.values.push_back(
                static_cast<float>(std::min(dictionary.value(state, faults[0] + 1, finding),
                                            dictionary.value(state, faults[1] + 1, finding))));
        rows.push_back(std::move(row));
    }
    return rows;
}

}  // namespace

TEST_CASE("Two dark lamps out of four are two faults, since no single one explains them") {
    const auto dictionary = test::dictionary_of(kLamps);
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    Hypotheses hypotheses(dictionary, spread, {},
                          [&](std::span<const FaultsInState> wanted) { return both(dictionary, wanted); });
    const Ranking ranking =
        diagnosis::rank(hypotheses, {{{0, 0, 0}, {0, 1, 12}, {0, 2, 0}, {0, 3, 12}}, {}, true});
    CHECK_FALSE(ranking.single_explains);
    CHECK(hypotheses.faults_of(ranking.best()) == std::vector<int>{0, 2});
    // By hand: two faults 2 x 0.05 x 0.95 / 5^2; one of them and a reading of nonsense, two ways,
    // 0.95 / 5 x 0.08 / 12 against 0.92 at the top of a bell of 0.1 V and a meter's 2 mV.
    CHECK(ranking.probability[at(ranking.best())] == Approx(0.846).epsilon(0.005));
}

TEST_CASE("Where one fault explains everything no pair is looked into") {
    const auto dictionary = test::dictionary_of(kLamps);
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    int asked = 0;
    Hypotheses hypotheses(dictionary, spread, {}, [&](std::span<const FaultsInState> wanted) {
        ++asked;
        return both(dictionary, wanted);
    });
    const Ranking ranking =
        diagnosis::rank(hypotheses, {{{0, 0, 0}, {0, 1, 0}, {0, 2, 0}, {0, 3, 0}}, {}, true});
    CHECK(ranking.single_explains);
    CHECK(hypotheses.faults_of(ranking.best()) == std::vector<int>{4});
    CHECK(asked == 0);
}

TEST_CASE(
    "Two fuses that blow often are thought of where a wire that hardly ever breaks explains everything") {
    const auto dictionary = test::dictionary_of({{12, 12}, {0, 12}, {12, 0}, {0, 0}}, {10, 10, 1});
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    Hypotheses hypotheses(dictionary, spread, {},
                          [&](std::span<const FaultsInState> wanted) { return both(dictionary, wanted); });
    const Ranking ranking = diagnosis::rank(hypotheses, {{{0, 0, 0}, {0, 1, 0}}, {}, true});
    CHECK(ranking.single_explains);
    CHECK(hypotheses.faults_of(ranking.best()) == std::vector<int>{2});
    REQUIRE(hypotheses.count() == dictionary.rows() + 1);
    CHECK(hypotheses.faults_of(dictionary.rows()) == std::vector<int>{0, 1});
    // By hand: 2 x 0.05 x (10 / 21)^2 of pairs to 1 / 21 of single faults, the readings being alike.
    const double odds = ranking.probability[at(dictionary.rows())] / ranking.probability[3];
    CHECK(odds == Approx(2 * 0.05 * 100 / 21).epsilon(1e-6));
}

TEST_CASE("Without a way to predict pairs the best single fault stays the best guess") {
    const auto dictionary = test::dictionary_of(kLamps);
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    Hypotheses hypotheses(dictionary, spread, {});
    const Ranking ranking =
        diagnosis::rank(hypotheses, {{{0, 0, 0}, {0, 1, 12}, {0, 2, 0}, {0, 3, 12}}, {}, true});
    CHECK_FALSE(ranking.single_explains);
    CHECK(hypotheses.count() == dictionary.rows());
}

TEST_CASE("Candidates are those whose parts explain complementary readings, and never two of one thing") {
    auto dictionary = test::dictionary_of(kLamps);
    dictionary.faults[3].fault.part = dictionary.faults[1].fault.part;  // both of one part
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    const Hypotheses hypotheses(dictionary, spread, {});
    const diagnosis::Evidence evidence{{{0, 0, 12}, {0, 1, 0}, {0, 2, 0}, {0, 3, 12}}, {}, true};
    const auto pairs = diagnosis::candidate_pairs(hypotheses, evidence, 100);
    REQUIRE_FALSE(pairs.empty());
    CHECK(pairs.front() == FaultPair{1, 2});
    CHECK(std::ranges::find(pairs, FaultPair{1, 3}) == pairs.end());
    CHECK(pairs.size() == 9);
    CHECK(diagnosis::candidate_pairs(hypotheses, evidence, 2).size() == 2);
}
