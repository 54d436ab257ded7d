#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

#include "engine/diagnosis/next_test/lookahead.h"
#include "tests/support/every_plan.h"

using namespace halfsplit;
using diagnosis::Bench;
using diagnosis::Lookahead;
using diagnosis::Outlook;
using diagnosis::Prospect;

namespace {

/// A few groups, tests at three places in two states; probabilities far apart, as they are in practice.
Outlook random_outlook(int groups, int tests, unsigned seed) {
    std::mt19937 generator(seed);
    std::uniform_real_distribution<double> share(0, 1);
    Outlook outlook;
    outlook.access_min = {2 + 4 * share(generator), 10 * share(generator), 20 * share(generator)};
    outlook.state_min = 0.5;
    outlook.needless_min = seed % 3 == 0 ? 5 : 40;
    const auto place = [&] { return static_cast<int>(generator() % 4) - 1; };
    for (int group = 0; group < groups; ++group) {
        const double chance = share(generator);
        outlook.groups.push_back({chance * chance + 0.001, 1 + 20 * share(generator), place()});
    }
    for (int test = 0; test < tests; ++test) {
        const int outcomes = 2 + static_cast<int>(generator() % 2);
        outlook.tests.push_back(
            {{0, test}, 0.2 + share(generator), place(), static_cast<int>(generator() % 2), outcomes});
        for (int group = 0; group < groups; ++group)
            outlook.cells.push_back(static_cast<std::uint8_t>(generator() % static_cast<unsigned>(outcomes)));
    }
    return outlook;
}

struct Ratios {
    double mean = 0;
    double worst = 0;
};

Ratios ratios(int groups, int tests, int count) {
    Ratios found;
    for (unsigned seed = 0; seed < static_cast<unsigned>(count); ++seed) {
        const Outlook outlook = random_outlook(groups, tests, seed);
        const double least = test::EveryPlan(outlook).least_minutes();
        const Prospect prospect = Lookahead(outlook, {{0, 0, 0}, -1}).best();
        INFO(groups << " groups, " << tests << " tests, seed " << seed);
        CHECK(prospect.minutes >= least * (1 - 1e-9));
        found.mean += prospect.minutes / least / count;
        found.worst = std::max(found.worst, prospect.minutes / least);
    }
    return found;
}

}  // namespace

// The judge is the exhaustive search, which shares nothing with the plans.
TEST_CASE("Plans for a handful of groups cost what the best of all plans costs") {
    for (const int groups : {2, 3, 5, 7}) {
        const Ratios found = ratios(groups, 6, 60);
        INFO(groups << " groups: mean " << found.mean << ", worst " << found.worst);
        CHECK(found.mean < 1.005);
        CHECK(found.worst < 1.05);
    }
}

TEST_CASE("Plans for a dozen groups stay within a tenth of the best of all plans") {
    const Ratios ten = ratios(10, 9, 30);
    const Ratios twelve = ratios(12, 12, 12);
    INFO("10 groups: mean " << ten.mean << ", worst " << ten.worst);
    INFO("12 groups: mean " << twelve.mean << ", worst " << twelve.worst);
    CHECK(ten.mean < 1.03);
    CHECK(twelve.mean < 1.03);
    CHECK(std::max(ten.worst, twelve.worst) < 1.10);
}

TEST_CASE("A cheap repair is tried before a dear test, and a dear one is not") {
    Outlook outlook;
    outlook.groups = {{0.6, 1, -1}, {0.4, 1, -1}};
    outlook.tests = {{{0, 0}, 10, -1, 0, 2}};
    outlook.cells = {0, 1};
    outlook.needless_min = 5;
    // By hand: repairing 1 + 0.4 x (5 + 1) = 3.4; testing 10 + 1 = 11.
    Prospect prospect = Lookahead(outlook, {{}, 0}).best();
    CHECK(prospect.test == -1);
    CHECK(prospect.group == 0);
    CHECK(prospect.minutes == Approx(3.4));
    CHECK(prospect.minutes_testing == Approx(11));
    outlook.needless_min = 50;
    // Repairing 1 + 0.4 x 51 = 21.4.
    prospect = Lookahead(outlook, {{}, 0}).best();
    CHECK(prospect.test == 0);
    CHECK(prospect.minutes == Approx(11));
    CHECK(prospect.minutes_repairing == Approx(21.4));
}

TEST_CASE("A place that is open already is tested at before one that is not") {
    Outlook outlook;
    outlook.access_min = {8, 8};
    outlook.groups = {{0.5, 0, -1}, {0.5, 0, -1}};
    outlook.tests = {{{0, 0}, 0.5, 0, 0, 2}, {{0, 1}, 0.5, 1, 0, 2}};
    outlook.cells = {0, 1, 0, 1};
    outlook.needless_min = 100;
    CHECK(Lookahead(outlook, {{1, 0}, 0}).best().test == 0);
    CHECK(Lookahead(outlook, {{0, 1}, 0}).best().test == 1);
}
