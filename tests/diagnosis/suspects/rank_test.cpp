#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <random>

#include "engine/diagnosis/suspects/groups.h"
#include "engine/diagnosis/suspects/rank.h"
#include "engine/diagnosis/suspects/reasons.h"
#include "engine/instruments/instrument.h"
#include "tests/diagnosis/suspects/hand_made.h"
#include "tests/support/circuit_text.h"

using namespace halfsplit;
using diagnosis::Evidence;
using diagnosis::Hypotheses;
using diagnosis::Ranking;
using diagnosis::Reading;

namespace {

constexpr double kNobodyKnows = std::numeric_limits<double>::quiet_NaN();

/// 12 V, three series S1..S3 and three shunts P1..P3 of 1 kohm, nodes V1 V2 V3 (reference: ladder dictionary,
/// derived by hand).
const std::vector<std::vector<double>> kLadder{{60.0 / 13, 24.0 / 13, 12.0 / 13},  // sound
                                               {0, 0, 0},                          // S1 open
                                               {12, 24.0 / 5, 12.0 / 5},           // S1 short
                                               {15.0 / 2, 3, 3.0 / 2},             // P1 open
                                               {0, 0, 0},                          // P1 short
                                               {6, 0, 0},                          // S2 open
                                               {24.0 / 7, 24.0 / 7, 12.0 / 7},     // S2 short
                                               {36.0 / 7, 24.0 / 7, 12.0 / 7},     // P2 open
                                               {4, 0, 0},                          // P2 short
                                               {24.0 / 5, 12.0 / 5, 0},            // S3 open
                                               {9.0 / 2, 3.0 / 2, 3.0 / 2},        // S3 short
                                               {24.0 / 5, 12.0 / 5, 12.0 / 5},     // P3 open
                                               {9.0 / 2, 3.0 / 2, 0}};             // P3 short

struct RandomCase {
    diagnosis::Dictionary dictionary;
    diagnosis::Spread spread;
    std::vector<Reading> readings;
};

/// Values in a few levels, some unknown, some signs, two states; readings near what some row says, or not.
RandomCase random_case(unsigned seed) {
    std::mt19937 generator(seed);
    std::uniform_real_distribution<double> share(0, 1);
    const int rows = 3 + static_cast<int>(generator() % 20);
    const int findings = 2 + static_cast<int>(generator() % 6);
    RandomCase random;
    std::vector<std::vector<double>> values(at(rows), std::vector<double>(at(findings)));
    std::vector<double> rates;
    for (int row = 1; row < rows; ++row) rates.push_back(0.1 + share(generator));
    random.dictionary = test::dictionary_of(values, rates);
    random.dictionary.states = {"first", "second"};
    random.dictionary.values.resize(random.dictionary.values.size() * 2);
    random.dictionary.told.assign(at(rows) * 2, diagnosis::Told::exactly);
    if (findings > 2) random.dictionary.findings[0].kind = diagnosis::Finding::Kind::sign;
    for (std::size_t i = 0; i < random.dictionary.values.size(); ++i) {
        const bool is_sign =
            random.dictionary.findings[i % at(findings)].kind == diagnosis::Finding::Kind::sign;
        random.dictionary.values[i] = static_cast<float>(
            share(generator) < 0.05 ? kNobodyKnows : std::floor(share(generator) * 4) * (is_sign ? 1 : 4.1));
    }
    for (auto& told : random.dictionary.told)
        if (share(generator) < 0.2) told = diagnosis::Told::as_it_stands;
    random.spread = diagnosis::equal_spread(random.dictionary, 0.1);
    for (int i = 0; i < 6; ++i)
        random.readings.push_back({static_cast<int>(generator() % 2),
                                   static_cast<int>(generator() % at(findings)),
                                   std::floor(share(generator) * 4)});
    return random;
}

Ranking ranked(const RandomCase& random, std::vector<Reading> readings) {
    Hypotheses hypotheses(random.dictionary, random.spread, {});
    return diagnosis::rank(hypotheses, {std::move(readings), {}, false});
}

}  // namespace

// Bayes' rule itself, by hand: two faults, rates 1 and 3, no nonsense, one reading.
TEST_CASE("Two suspects and one reading are weighed as Bayes' rule says") {
    const auto dictionary = test::dictionary_of({{12}, {5}, {6}}, {1, 3});
    const auto spread = diagnosis::equal_spread(dictionary, 0.5);
    auto assumptions = test::exact_readings();
    assumptions.sound_share = 0;
    Hypotheses hypotheses(dictionary, spread, assumptions);
    const Ranking ranking = diagnosis::rank(hypotheses, {{{0, 0, 5.25}}, {}, true});
    const double one = 0.25 * std::exp(-0.5 * 0.5 * 0.5);
    const double other = 0.75 * std::exp(-0.5 * 1.5 * 1.5);
    CHECK(ranking.probability[0] == 0);
    CHECK(ranking.probability[1] == Approx(one / (one + other)).epsilon(1e-6));
    CHECK(ranking.probability[2] == Approx(other / (one + other)).epsilon(1e-6));
}

// The same with a share of nonsense, evenly distributed over the 12 V that the dictionary spans.
TEST_CASE("Nonsense limits how much one reading can say") {
    const auto dictionary = test::dictionary_of({{12}, {5}, {6}});
    const auto spread = diagnosis::equal_spread(dictionary, 0.01);
    auto assumptions = test::exact_readings();
    assumptions.nonsense_share = 0.05;
    assumptions.sound_share = 0;
    Hypotheses hypotheses(dictionary, spread, assumptions);
    const Ranking ranking = diagnosis::rank(hypotheses, {{{0, 0, 5}}, {}, true});
    const double nonsense = 0.05 / 12;
    const double right = 0.95 / (0.01 * std::sqrt(2 * 3.14159265358979)) + nonsense;
    CHECK(ranking.probability[2] == Approx(nonsense / (nonsense + right)).epsilon(1e-5));
}

namespace {

/// Probability of each of these, that are as frequent as one another, by Bayes' rule.
std::vector<double> shares(std::vector<double> likelihoods) {
    const double sum = std::accumulate(likelihoods.begin(), likelihoods.end(), 0.0);
    for (double& each : likelihoods) each /= sum;
    return likelihoods;
}

}  // namespace

// By hand, from the table of how signs are called: lit, dim and dark are 2, 1 and 0.
TEST_CASE("A complaint is hardly ever about what is as it was, and a mistake only so often") {
    auto dictionary = test::dictionary_of({{2}, {2}, {0}, {1}});
    dictionary.findings[0].kind = diagnosis::Finding::Kind::sign;
    const auto spread = diagnosis::equal_spread(dictionary, 0.01);
    diagnosis::Assumptions assumptions;
    assumptions.sound_share = 0;
    const double share = assumptions.nonsense_share;
    Hypotheses lamp(dictionary, spread, assumptions);
    const auto called_dim = [&](double nonsense) {
        std::vector<double> likelihoods;
        for (const std::size_t sign : {2U, 0U, 1U})
            likelihoods.push_back((1 - nonsense) * assumptions.called[sign][1] + nonsense / 4);
        return likelihoods;
    };
    const auto seen = shares(called_dim(share));
    const Ranking looked_at = diagnosis::rank(lamp, {{{0, 0, 1}}, {}, false});
    for (std::size_t i = 0; i < 3; ++i) CHECK(looked_at.probability[i + 1] == Approx(seen[i]));
    // There is one sign in one state.
    auto likelihoods = called_dim(assumptions.mistaken_complaint);
    likelihoods[0] = assumptions.mistaken_complaint;
    const auto weighed = shares(likelihoods);
    const Ranking complained = diagnosis::rank(lamp, {{{0, 0, 1, true}}, {}, false});
    for (std::size_t i = 0; i < 3; ++i) CHECK(complained.probability[i + 1] == Approx(weighed[i]));
    // What is told of them says the same: who complains of a lamp that is as it was contradicts it.
    using Verdict = diagnosis::Reason::Verdict;
    const auto verdict = [&](int suspect, bool is_complaint) {
        return diagnosis::reasons_for(lamp, suspect, {{{0, 0, 1, is_complaint}}, {}, true}).front().verdict;
    };
    CHECK(verdict(1, true) == Verdict::contradicts);
    CHECK(verdict(1, false) == Verdict::explains);
    CHECK(verdict(3, true) == Verdict::explains);
    // That the lamp is lit is nothing to complain of, and weighs as if somebody had looked.
    CHECK(diagnosis::rank(lamp, {{{0, 0, 2, true}}, {}, false}).probability ==
          diagnosis::rank(lamp, {{{0, 0, 2}}, {}, false}).probability);
}

TEST_CASE("What was measured and complained of is nonsense as seldom as a complaint is a mistake") {
    const auto dictionary = test::dictionary_of({{12}, {5}, {6}});
    const auto spread = diagnosis::equal_spread(dictionary, 0.01);
    auto assumptions = test::exact_readings();
    assumptions.sound_share = 0;
    Hypotheses hypotheses(dictionary, spread, assumptions);
    const double mistake = assumptions.mistaken_complaint;
    const double nonsense = mistake / 12;
    const double right = (1 - mistake) / (0.01 * std::sqrt(2 * 3.14159265358979)) + nonsense;
    const Ranking ranking = diagnosis::rank(hypotheses, {{{0, 0, 5, true}}, {}, true});
    CHECK(ranking.probability[2] == Approx(nonsense / (nonsense + right)).epsilon(1e-5));
}

TEST_CASE("What was read and is also complained of is one complaint, in whatever order it was written down") {
    RandomCase random = random_case(7);
    random.readings = {random.readings.front()};
    random.readings.front().is_complaint = true;
    const Ranking alone = ranked(random, random.readings);
    random.readings.push_back(random.readings.front());
    random.readings.back().is_complaint = false;
    CHECK(ranked(random, random.readings).probability == alone.probability);
    std::ranges::reverse(random.readings);
    CHECK(ranked(random, random.readings).probability == alone.probability);
}

// Properties every posterior has (reference: properties to hold).
TEST_CASE("Posteriors sum to one, whatever the readings, and their order and repetition do not matter") {
    for (unsigned seed = 0; seed < 200; ++seed) {
        INFO("seed " << seed);
        const RandomCase random = random_case(seed);
        const Ranking once = ranked(random, random.readings);
        CHECK(std::accumulate(once.probability.begin(), once.probability.end(), 0.0) ==
              Approx(1).epsilon(1e-12));
        CHECK(std::ranges::all_of(once.probability, [](double p) { return p >= 0 && p <= 1; }));
        std::vector<Reading> shuffled = random.readings;
        std::ranges::shuffle(shuffled, std::mt19937(seed));
        CHECK(ranked(random, shuffled).probability == once.probability);
        std::vector<Reading> repeated = random.readings;
        repeated.insert(repeated.end(), random.readings.begin(), random.readings.end());
        CHECK(ranked(random, repeated).probability == once.probability);
    }
}

TEST_CASE("A reading that all lead to alike changes nothing") {
    const auto dictionary = test::dictionary_of({{12, 1}, {5, 1}, {6, 1}}, {1, 2});
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    Hypotheses hypotheses(dictionary, spread, {});
    const Ranking before = diagnosis::rank(hypotheses, {});
    const Ranking after = diagnosis::rank(hypotheses, {{{0, 1, 1.02}}, {}, false});
    for (std::size_t i = 0; i < 3; ++i) CHECK(after.probability[i] == Approx(before.probability[i]));
}

TEST_CASE("What says nothing about a reading keeps its share among those that do") {
    const auto dictionary = test::dictionary_of({{12}, {5}, {6}, {kNobodyKnows}});
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    Hypotheses hypotheses(dictionary, spread, {});
    const Ranking before = diagnosis::rank(hypotheses, {});
    const Ranking after = diagnosis::rank(hypotheses, {{{0, 0, 5}}, {}, false});
    CHECK(after.probability[3] == Approx(before.probability[3]).epsilon(1e-9));
}

TEST_CASE("One wrong reading among good ones is survived and said to contradict") {
    const auto dictionary =
        test::dictionary_of({{12, 12, 12, 12}, {0, 12, 12, 12}, {0, 0, 12, 12}, {0, 0, 0, 12}});
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    Hypotheses hypotheses(dictionary, spread, {});
    const Evidence evidence{{{0, 0, 0}, {0, 1, 0}, {0, 2, 12}, {0, 3, 3.3}}, {}, true};
    const Ranking ranking = diagnosis::rank(hypotheses, evidence);
    CHECK(ranking.best() == 2);
    CHECK(ranking.probability[2] > 0.99);
    const auto reasons = diagnosis::reasons_for(hypotheses, 2, evidence);
    REQUIRE(reasons.size() == 4);
    CHECK(reasons[2].verdict == diagnosis::Reason::Verdict::explains);
    CHECK(reasons[2].expected.mean == 12);
    CHECK(reasons[3].verdict == diagnosis::Reason::Verdict::contradicts);
}

TEST_CASE("What was cleared is out, and so is what nobody would notice once somebody complains") {
    const auto dictionary = test::dictionary_of({{12, 12}, {5, 12}, {12, 12}, {12, 6}});
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    Hypotheses hypotheses(dictionary, spread, {});
    const Ranking ranking = diagnosis::rank(hypotheses, {{}, {0}, true});
    CHECK(ranking.probability == std::vector<double>{0, 0, 0, 1});
    CHECK_THROWS_AS(diagnosis::rank(hypotheses, {{}, {0, 2}, true}), std::invalid_argument);
    CHECK_THROWS_AS(diagnosis::rank(hypotheses, {{{0, 2, 1}}, {}, false}), std::invalid_argument);
    CHECK_THROWS_AS(diagnosis::rank(hypotheses, {{{1, 0, 1}}, {}, false}), std::invalid_argument);
    CHECK_THROWS_AS(diagnosis::rank(hypotheses, {{{0, 0, kNobodyKnows}}, {}, false}), std::invalid_argument);
}

// Reference: the ladder dictionary's only tie for voltage probes.
TEST_CASE("In the ladder an open first resistor and a shorted first shunt are tied and nothing else is") {
    const auto dictionary = test::dictionary_of(kLadder);
    const auto spread = diagnosis::equal_spread(dictionary, 0.005);
    Hypotheses hypotheses(dictionary, spread, test::exact_readings());
    const auto groups = diagnosis::ambiguity_groups(hypotheses, diagnosis::all_permitted(dictionary));
    CHECK(groups.size() == 12);
    CHECK(std::ranges::find(groups, std::vector<int>{1, 4}) != groups.end());
    const Ranking ranking = diagnosis::rank(hypotheses, {{{0, 0, 0}, {0, 2, 0}}, {}, true});
    CHECK(ranking.probability[1] == Approx(0.5));
    CHECK(ranking.probability[4] == Approx(0.5));
}

TEST_CASE("Points that may not be probed leave larger groups") {
    const auto dictionary = test::dictionary_of(kLadder);
    const auto spread = diagnosis::equal_spread(dictionary, 0.005);
    Hypotheses hypotheses(dictionary, spread, test::exact_readings());
    const auto groups = diagnosis::ambiguity_groups(hypotheses, {{0}, {2}});
    // V3 is 0 V with five faults, 12/5 with two, 3/2 with two, 12/7 with two.
    CHECK(groups.size() == 5);
    CHECK(std::ranges::find(groups, std::vector<int>{1, 4, 5, 8, 9, 12}) != groups.end());
}

TEST_CASE("Meters err as those the circuits are measured with") {
    const model::Circuit circuit = test::circuit_of(
        R"(<battery id="G1"/><resistor id="R1" ohm="10"/><resistor id="R2" ohm="1"/><ground-point id="E1"/>)",
        R"(<wire id="W1" from="G1.+" to="R1.1" ohm="0.01"/><wire id="W2" from="R1.2" to="R2.1" ohm="0.01"/>
           <wire id="W3" from="R2.2" to="E1" ohm="0.01"/><wire id="W4" from="G1.-" to="E1" ohm="0.01"/>)");
    const simulation::Settled settled = test::settled(circuit);
    const diagnosis::Assumptions assumptions;
    for (const char* point : {"R1.1", "R2.1", "R2.2"}) {
        const auto shown = instruments::measure({circuit, settled}, "voltmeter", {point, "body"});
        REQUIRE(shown);
        const double unit = shown->unit == "mV" ? 1e-3 : 1;
        const double half = (shown->high - shown->low) / 2 * unit;
        INFO(point << " " << shown->shown);
        CHECK(std::sqrt(3 * diagnosis::meter_variance(assumptions.voltmeter, shown->value * unit)) ==
              Approx(half).epsilon(1e-6));
    }
    const auto shown = instruments::measure({circuit, settled}, "clamp", {"W2", ""});
    REQUIRE(shown);
    CHECK(std::sqrt(3 * diagnosis::meter_variance(assumptions.clamp, shown->value)) ==
          Approx((shown->high - shown->low) / 2).epsilon(1e-6));
}
