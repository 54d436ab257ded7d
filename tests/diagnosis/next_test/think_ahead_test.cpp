#include <catch2/catch.hpp>

#include "engine/diagnosis/next_test/think_ahead.h"
#include "tests/diagnosis/suspects/hand_made.h"

using namespace halfsplit;
using diagnosis::Choice;
using diagnosis::Dictionary;
using diagnosis::Evidence;
using diagnosis::Hypotheses;
using diagnosis::Told;

namespace {

/// In each of two states three faults take a point to 6 V, as it stands: the first ten times as often as the
/// second, and hardly ever the third. In truth the first takes it to 0 V.
Dictionary three_as_they_stand() {
    Dictionary dictionary = test::dictionary_of({{12, 12}, {6, 12}, {6, 12}, {6, 12}}, {10, 1, 0.01});
    dictionary.told = {Told::exactly, Told::as_it_stands, Told::as_it_stands, Told::as_it_stands};
    dictionary.states.emplace_back("otherwise");
    dictionary.pulses.push_back(dictionary.pulses.front());
    const std::vector<float> values = dictionary.values;
    dictionary.values.insert(dictionary.values.end(), values.begin(), values.end());
    const std::vector<Told> told = dictionary.told;
    dictionary.told.insert(dictionary.told.end(), told.begin(), told.end());
    return dictionary;
}

std::vector<diagnosis::PredictedRow> truly(std::span<const diagnosis::FaultsInState> wanted) {
    std::vector<diagnosis::PredictedRow> rows;
    for (const diagnosis::FaultsInState& each : wanted)
        rows.push_back({{each.faults.front() == 0 ? 0.0F : 6.0F, 12}, Told::exactly});
    return rows;
}

}  // namespace

TEST_CASE("While a reading is taken the likeliest are settled, where something was read and will be next") {
    const Dictionary dictionary = three_as_they_stand();
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    Hypotheses hypotheses(dictionary, spread, {}, {}, truly);
    const Evidence evidence{{{0, 0, 6}, {0, 1, 12}}, {}, true};
    const auto before = diagnosis::rank(hypotheses, evidence);
    CHECK(before.best() == 1);
    Choice choice;
    choice.kind = Choice::Kind::test;
    choice.test = {1, 0};
    int portions = 0;
    while (diagnosis::think_ahead(hypotheses, before, choice, evidence)) ++portions;
    CHECK(portions > 0);
    const std::vector<int> both{0, 1};
    CHECK(hypotheses.unsettled_in(1, both).empty());
    CHECK(hypotheses.unsettled_in(2, both).empty());
    CHECK(hypotheses.unsettled_in(3, both) == both);
    const auto after = diagnosis::rank(hypotheses, evidence);
    CHECK(after.best() == 2);
    // By hand: 0.85 of a bell of some 0.85 V at its top, against ten times 0.15 of nonsense over 12 V.
    CHECK(after.probability[2] == Approx(0.76).margin(0.02));
}

TEST_CASE("Where a repair is next nothing is settled in other states than those that were read in") {
    const Dictionary dictionary = three_as_they_stand();
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    Hypotheses hypotheses(dictionary, spread, {}, {}, truly);
    const Evidence evidence{{{0, 0, 6}}, {}, true};
    const auto ranking = diagnosis::rank(hypotheses, evidence);
    while (diagnosis::think_ahead(hypotheses, ranking, {}, evidence)) {
    }
    CHECK(hypotheses.unsettled_in(1, std::vector{0, 1}) == std::vector{1});
}

TEST_CASE("What would be repaired but that it is to be settled is settled meanwhile, however unlikely") {
    const Dictionary dictionary = three_as_they_stand();
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    Hypotheses hypotheses(dictionary, spread, {}, {}, truly);
    const Evidence evidence{{{0, 0, 6}}, {}, true};
    const auto ranking = diagnosis::rank(hypotheses, evidence);
    Choice choice;
    choice.kind = Choice::Kind::test;
    choice.group = {3};
    choice.is_meanwhile = GENERATE(false, true);
    while (diagnosis::think_ahead(hypotheses, ranking, choice, evidence)) {
    }
    CHECK(hypotheses.unsettled_in(3, std::vector{0}).empty() == choice.is_meanwhile);
}

TEST_CASE("Pairs that may explain everything are settled meanwhile, though as it stands they do not") {
    // Each of two faults darkens a lamp, a third both; together the first two do as well, but only in time.
    const Dictionary dictionary = test::dictionary_of({{12, 12}, {0, 12}, {12, 0}, {0, 0}}, {10, 10, 1});
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    const auto row = [](float first, Told told) {
        return [=](std::span<const diagnosis::FaultsInState> wanted) {
            return std::vector<diagnosis::PredictedRow>(wanted.size(), {{first, 0}, told});
        };
    };
    Hypotheses hypotheses(dictionary, spread, {}, row(12, Told::as_it_stands), row(0, Told::exactly));
    const Evidence evidence{{{0, 0, 0}, {0, 1, 0}}, {}, true};
    const auto before = diagnosis::rank(hypotheses, evidence);
    REQUIRE(before.promising == std::vector<diagnosis::FaultPair>{{0, 1}});
    const int pair = hypotheses.find_pair({0, 1});
    CHECK(before.probability[at(pair)] < 0.01);
    CHECK(diagnosis::think_ahead(hypotheses, before, {}, evidence));
    const auto after = diagnosis::rank(hypotheses, evidence);
    // By hand: 2 x 0.1 x (10 / 21)^2 of the pair to 1 / 21 of the single fault, the readings being alike.
    CHECK(after.probability[at(pair)] / after.probability[3] == Approx(2 * 0.1 * 100 / 21).epsilon(1e-6));
    CHECK_FALSE(diagnosis::think_ahead(hypotheses, after, {}, evidence));
}
