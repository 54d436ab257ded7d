#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

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

std::vector<diagnosis::Weights> weights_of(const Hypotheses& hypotheses,
                                           const diagnosis::Evidence& evidence) {
    std::vector<diagnosis::Weights> weights;
    for (const diagnosis::Reading& reading : evidence.readings)
        weights.push_back(diagnosis::weigh(hypotheses, reading));
    return weights;
}

}  // namespace

TEST_CASE("Two dark lamps out of four are two faults, since no single one explains them") {
    const auto dictionary = test::dictionary_of(kLamps);
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    Hypotheses hypotheses(dictionary, spread, {}, [&](std::span<const FaultsInState> wanted) {
        return test::less_of_both(dictionary, wanted);
    });
    const Ranking ranking =
        diagnosis::rank(hypotheses, {{{0, 0, 0}, {0, 1, 12}, {0, 2, 0}, {0, 3, 12}}, {}, true});
    CHECK_FALSE(ranking.single_explains);
    CHECK(hypotheses.faults_of(ranking.best()) == std::vector<int>{0, 2});
    // By hand: two faults 2 x 0.1 x 0.95 / 5^2; one of them and a reading of nonsense, two ways,
    // 0.95 / 5 x 0.08 / 12 against 0.92 at the top of a bell of 0.1 V and a meter's 2 mV.
    CHECK(ranking.probability[at(ranking.best())] == Approx(0.917).epsilon(0.005));
}

TEST_CASE("Where one fault explains everything no pair is looked into") {
    const auto dictionary = test::dictionary_of(kLamps);
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    int asked = 0;
    Hypotheses hypotheses(dictionary, spread, {}, [&](std::span<const FaultsInState> wanted) {
        ++asked;
        return test::less_of_both(dictionary, wanted);
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
    Hypotheses hypotheses(dictionary, spread, {}, [&](std::span<const FaultsInState> wanted) {
        return test::less_of_both(dictionary, wanted);
    });
    const Ranking ranking = diagnosis::rank(hypotheses, {{{0, 0, 0}, {0, 1, 0}}, {}, true});
    CHECK(ranking.single_explains);
    CHECK(hypotheses.faults_of(ranking.best()) == std::vector<int>{2});
    REQUIRE(hypotheses.count() == dictionary.rows() + 1);
    CHECK(hypotheses.faults_of(dictionary.rows()) == std::vector<int>{0, 1});
    // By hand: 2 x 0.1 x (10 / 21)^2 of pairs to 1 / 21 of single faults, the readings being alike.
    const double odds = ranking.probability[at(dictionary.rows())] / ranking.probability[3];
    CHECK(odds == Approx(2 * 0.1 * 100 / 21).epsilon(1e-6));
}

TEST_CASE("A hundred pairs that explain everything weigh as much as they are, not as the few worked out") {
    const auto dictionary = test::dictionary_of(test::a_dozen_of_each_side_and_both());
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    Hypotheses hypotheses(dictionary, spread, {}, [&](std::span<const FaultsInState> wanted) {
        return test::less_of_both(dictionary, wanted);
    });
    const Ranking ranking =
        diagnosis::rank(hypotheses, {{{0, 0, 0}, {0, 1, 0}, {0, 2, 0}, {0, 3, 0}}, {}, true});
    CHECK(ranking.single_explains);
    // By hand: 12 x 12 pairs, 2 x 0.1 / 25^2 each, to 1 / 25 of the fault that does both.
    const double pairs = 144 * 2 * 0.1 / 25;
    CHECK(ranking.probability[25] == Approx(1 / (1 + pairs)).epsilon(0.001));
    double listed = 0;
    for (int each = dictionary.rows(); each < hypotheses.count(); ++each)
        listed += ranking.probability[at(each)];
    const double worked_out = (hypotheses.count() - dictionary.rows()) / 144.0;
    CHECK(worked_out < 0.2);
    CHECK(listed == Approx(worked_out * pairs / (1 + pairs)).epsilon(0.001));
    CHECK(ranking.other_pairs == Approx((1 - worked_out) * pairs / (1 + pairs)).epsilon(0.001));
}

TEST_CASE("A pair that was settled anew counts as it is, and the others are promised the less") {
    const auto dictionary = test::dictionary_of(test::a_dozen_of_each_side_and_both());
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    // No two faults together do what the rough rule promises.
    Hypotheses hypotheses(dictionary, spread, {}, [&](std::span<const FaultsInState> wanted) {
        return std::vector<diagnosis::PredictedRow>(wanted.size(),
                                                    {{0, 12, 12, 0, 12}, diagnosis::Told::exactly});
    });
    const diagnosis::Evidence evidence{{{0, 0, 0}, {0, 1, 0}, {0, 2, 0}, {0, 3, 0}}, {}, true};
    const auto promised =
        diagnosis::rival_pairs(hypotheses, evidence, weights_of(hypotheses, evidence), 24, 0.001);
    REQUIRE(promised.foremost.size() == 24);
    for (const FaultPair& pair : promised.foremost) hypotheses.add_pair(pair);
    hypotheses.predict_pairs(std::vector{0});
    const auto now =
        diagnosis::rival_pairs(hypotheses, evidence, weights_of(hypotheses, evidence), 24, 0.001);
    for (const FaultPair& pair : now.foremost)
        CHECK(std::ranges::find(promised.foremost, pair) == promised.foremost.end());
    CHECK(now.log_others < promised.log_others);
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
    const auto pairs =
        diagnosis::candidate_pairs(hypotheses, evidence, weights_of(hypotheses, evidence), 100).foremost;
    REQUIRE_FALSE(pairs.empty());
    CHECK(pairs.front() == FaultPair{1, 2});
    CHECK(std::ranges::find(pairs, FaultPair{1, 3}) == pairs.end());
    CHECK(pairs.size() == 9);
    CHECK(diagnosis::candidate_pairs(hypotheses, evidence, weights_of(hypotheses, evidence), 2)
              .foremost.size() == 2);
}

TEST_CASE("However many readings speak against the best single fault, probabilities stay numbers") {
    // Two hundred points on either side, which no fault but a pair explains.
    std::vector<std::vector<double>> rows(3, std::vector<double>(400, 12));
    std::fill(rows[1].begin(), rows[1].begin() + 200, 0);
    std::fill(rows[2].begin() + 200, rows[2].end(), 0);
    const auto dictionary = test::dictionary_of(rows);
    const auto spread = diagnosis::equal_spread(dictionary, 0.01);
    Hypotheses hypotheses(dictionary, spread, {}, [&](std::span<const FaultsInState> wanted) {
        return test::less_of_both(dictionary, wanted);
    });
    diagnosis::Evidence evidence;
    for (int finding = 0; finding < 400; ++finding) evidence.readings.push_back({0, finding, 0});
    const Ranking ranking = diagnosis::rank(hypotheses, evidence);
    CHECK(hypotheses.faults_of(ranking.best()) == std::vector<int>{0, 1});
    CHECK(ranking.probability[at(ranking.best())] == Approx(1));
    CHECK(ranking.other_pairs == Approx(0).margin(1e-9));
    const auto view = diagnosis::candidate_pairs(hypotheses, evidence, weights_of(hypotheses, evidence), 0);
    CHECK_FALSE(std::isnan(view.log_others));
}
