#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "engine/diagnosis/next_test/choose.h"
#include "engine/diagnosis/next_test/follow.h"
#include "engine/diagnosis/plan/plan.h"
#include "tests/diagnosis/plan/tables.h"
#include "tests/diagnosis/suspects/hand_made.h"

using namespace halfsplit;
using diagnosis::Choice;
using diagnosis::Hypotheses;
using diagnosis::plan::FaultTable;

namespace {

/// Expected number of tests by which the code that chooses next tests names each fault of a table; the
/// table's first fault is the sound vehicle.
double expected_tests(const FaultTable& table) {
    const auto dictionary = test::dictionary_of_table(table);
    const auto spread = diagnosis::equal_spread(dictionary, 0.01);
    auto assumptions = test::exact_readings();
    assumptions.sound_share = table.faults.front().prior;
    auto workshop = test::naming_workshop(dictionary);
    const auto permitted = diagnosis::all_permitted(dictionary);
    double expected = 0;
    for (int row = 0; row < dictionary.rows(); ++row) {
        Hypotheses hypotheses(dictionary, spread, assumptions);
        int mended = -2;
        const diagnosis::PatientVehicle vehicle{
            [&](const diagnosis::Test& test) { return dictionary.value(0, row, test.finding); },
            [&](int fault) { return fault == row - 1; }, [&](int fault) { return (mended = fault) >= 0; }};
        const auto run = diagnosis::follow(hypotheses, workshop, permitted, vehicle, {}, 100);
        INFO("row " << row);
        CHECK(run.needless_repairs == 0);
        CHECK(mended == (row == 0 ? -2 : row - 1));
        expected += table.faults[at(row)].prior * run.tests;
    }
    return expected;
}

}  // namespace

// Pattipati & Alexandridis, IEEE Trans. SMC 20(4), 1990 (from memory; the optimum by exhaustive dynamic
// programming): one-step information gain needs 2.86 tests here.
TEST_CASE("The six states are told apart with the 2.18 tests that are the least possible") {
    CHECK(expected_tests(test::six_states()) == Approx(2.18).epsilon(1e-9));
}

// Equally likely segments: Huffman's lengths (derived; see the reference's half-split numbers).
TEST_CASE("A run of segments is halved, not walked along") {
    const std::vector<std::pair<int, double>> least{{4, 2.0},       {7, 2.857143}, {8, 3.0},
                                                    {12, 3.666667}, {20, 4.4},     {32, 5.0}};
    for (const auto& [count, tests] : least) {
        INFO(count << " segments");
        CHECK(expected_tests(test::run_of_segments(count)) == Approx(tests).epsilon(1e-6));
    }
}

// Plan's exact search as the judge: the mean over tables, and none far off.
TEST_CASE("Chosen tests take hardly more than the cheapest tree on random tables") {
    double sum = 0;
    double least_sum = 0;
    double worst = 1;
    for (unsigned seed = 0; seed < 40; ++seed) {
        const test::Shape shape{4 + static_cast<int>(seed % 7), 4 + static_cast<int>(seed % 9),
                                2 + static_cast<int>(seed % 2), true};
        FaultTable table = test::random_table(shape, seed);
        for (auto& fault : table.faults) fault.prior += 0.01;
        REQUIRE(diagnosis::plan::normalise(table));
        if (diagnosis::plan::ambiguity_groups(table).size() < table.faults.size()) continue;
        const double least =
            diagnosis::plan::make_plan(table, diagnosis::plan::Method::optimal).expected_cost;
        const double tests = expected_tests(table);
        INFO("seed " << seed);
        CHECK(tests >= least * (1 - 1e-9));
        sum += tests;
        least_sum += least;
        worst = std::max(worst, tests / least);
    }
    REQUIRE(least_sum > 20);
    CHECK(sum / least_sum < 1.02);
    CHECK(worst < 1.10);
}

namespace {

/// One likely fault and 600 hardly likely ones, each of which shows at one point of its own; and a point, the
/// last, that tells `shared` of them from all others.
diagnosis::Dictionary likely_among_many(int shared) {
    constexpr int kMany = 600;
    std::vector<std::vector<double>> rows(kMany + 2, std::vector<double>(kMany + 1, 12));
    std::vector<double> rates(kMany + 1, 1);
    rates.front() = kMany;
    for (int each = 0; each < kMany; ++each) {
        rows[at(each + 2)][at(each)] = 0;
        if (each < shared) rows[at(each + 2)].back() = 0;
    }
    return test::dictionary_of(rows, rates);
}

Choice first_choice(const diagnosis::Dictionary& dictionary) {
    const auto spread = diagnosis::equal_spread(dictionary, 0.5);
    auto assumptions = test::exact_readings();
    assumptions.sound_share = 0;
    Hypotheses hypotheses(dictionary, spread, assumptions);
    const auto workshop = test::even_workshop(dictionary);
    return diagnosis::choose(hypotheses, diagnosis::rank(hypotheses, {}), {}, workshop,
                             diagnosis::fresh_bench(workshop), diagnosis::all_permitted(dictionary));
}

}  // namespace

// By hand: 600 suspects of 1/1200 each, 1/2 for the likely one. To look at a point of one's own tells 0.01
// bits, so the 5.6 that are missing take over five hundred minutes; a repair in vain takes an hour, and is in
// vain every other time. The point that half of them share tells 0.8 bits in a minute.
TEST_CASE("Thousands that are hardly likely are not looked at one by one before the likely one is repaired") {
    const Choice repair = first_choice(likely_among_many(0));
    CHECK(repair.kind == Choice::Kind::repair);
    CHECK(repair.group.front() == 1);
    CHECK(repair.probability == Approx(0.5));
    const Choice test = first_choice(likely_among_many(300));
    CHECK(test.kind == Choice::Kind::test);
    CHECK(test.test.finding == 600);
}

// By hand: a minute to see whether it is the first; if it is not, every other time, eleven more to see which
// of the two others it is. Without that, every fourth repair would be in vain, which takes an hour: 16
// minutes.
TEST_CASE("Hundreds of points that say the same do not keep the one out of a plan that says something else") {
    constexpr int kAlike = 300;
    std::vector<std::vector<double>> rows{std::vector<double>(kAlike, 12), std::vector<double>(kAlike, 0),
                                          std::vector<double>(kAlike, 6), std::vector<double>(kAlike, 6)};
    rows[0].push_back(12);
    rows[1].push_back(12);
    rows[2].push_back(0);
    rows[3].push_back(6);
    const auto dictionary = test::dictionary_of(rows, {2, 1, 1});
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    auto assumptions = test::exact_readings();
    assumptions.sound_share = 0;
    Hypotheses hypotheses(dictionary, spread, assumptions);
    auto workshop = test::even_workshop(dictionary);
    workshop.access_min = {10};
    workshop.test_place.back() = 0;
    const Choice choice =
        diagnosis::choose(hypotheses, diagnosis::rank(hypotheses, {{}, {}, true}), {}, workshop,
                          diagnosis::fresh_bench(workshop), diagnosis::all_permitted(dictionary));
    CHECK(choice.kind == Choice::Kind::test);
    CHECK(choice.test.finding < kAlike);
    CHECK(choice.minutes_to_go == Approx(1 + 0.5 * 11));
}

TEST_CASE("A feed is not repaired while a hundred pairs of faults explain it as well, but measured") {
    const auto dictionary = test::dictionary_of(test::a_dozen_of_each_side_and_both());
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    Hypotheses hypotheses(dictionary, spread, {}, [&](std::span<const diagnosis::FaultsInState> wanted) {
        return test::less_of_both(dictionary, wanted);
    });
    // By hand, as in pairs_test.cpp: the pairs that are worked out are 24 x 0.2 / 25 = 0.192 to one, and 16 %
    // of a repair in vain cost less than a minute's test; all are 1.152 to one, and 54 % cost more.
    auto workshop = test::even_workshop(dictionary);
    workshop.effort.needless_min = 4;
    const diagnosis::Evidence evidence{{{0, 0, 0}, {0, 1, 0}, {0, 2, 0}, {0, 3, 0}}, {}, true};
    const auto ranking = diagnosis::rank(hypotheses, evidence);
    const auto permitted = diagnosis::all_permitted(dictionary);
    const Choice choice = diagnosis::choose(hypotheses, ranking, evidence, workshop,
                                            diagnosis::fresh_bench(workshop), permitted);
    REQUIRE(choice.kind == Choice::Kind::test);
    CHECK(choice.test.finding == 4);

    diagnosis::Ranking of_the_listed = ranking;
    of_the_listed.other_pairs = 0;
    CHECK(diagnosis::choose(hypotheses, of_the_listed, evidence, workshop, diagnosis::fresh_bench(workshop),
                            permitted)
              .kind == Choice::Kind::repair);
}
