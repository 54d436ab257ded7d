#include <catch2/catch.hpp>

#include <algorithm>
#include <limits>
#include <map>
#include <random>
#include <tuple>

#include "engine/diagnosis/next_test/lookahead.h"

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

/// The least expected minutes by trying everything, from the definition alone: any test, or the repair of any
/// group, at any time.
class EveryPlan {
  public:
    explicit EveryPlan(const Outlook& outlook) : outlook_(outlook) {}

    double least_minutes() {
        const unsigned all = (1U << outlook_.groups.size()) - 1;
        return of(all, 0, -1) / probability(all);
    }

  private:
    double probability(unsigned set) const {
        double sum = 0;
        for (std::size_t group = 0; group < outlook_.groups.size(); ++group)
            if ((set >> group) & 1U) sum += outlook_.groups[group].probability;
        return sum;
    }

    double access(int place, unsigned open) const {
        return place < 0 || ((open >> static_cast<unsigned>(place)) & 1U) != 0
                   ? 0
                   : outlook_.access_min[at(place)];
    }

    static unsigned opened(int place, unsigned open) {
        return place < 0 ? open : open | (1U << static_cast<unsigned>(place));
    }

    double of(unsigned set, unsigned open, int state) {
        if (set == 0) return 0;
        const auto key = std::tuple(set, open, state);
        if (const auto known = known_.find(key); known != known_.end()) return known->second;
        double least = std::numeric_limits<double>::infinity();
        for (unsigned group = 0; group < outlook_.groups.size(); ++group) {
            if (((set >> group) & 1U) == 0) continue;
            const Outlook::Group& each = outlook_.groups[group];
            const unsigned rest = set & ~(1U << group);
            least = std::min(least, probability(set) * (each.repair_min + access(each.place, open)) +
                                        probability(rest) * outlook_.needless_min +
                                        of(rest, opened(each.place, open), state));
        }
        for (int test = 0; test < static_cast<int>(outlook_.tests.size()); ++test) {
            const Outlook::Way& way = outlook_.tests[at(test)];
            std::map<int, unsigned> parts;
            for (int group = 0; group < static_cast<int>(outlook_.groups.size()); ++group)
                if ((set >> static_cast<unsigned>(group)) & 1U)
                    parts[outlook_.outcome(test, group)] |= 1U << static_cast<unsigned>(group);
            if (parts.size() < 2) continue;
            double minutes = probability(set) * (way.minutes + access(way.place, open) +
                                                 (way.state == state ? 0 : outlook_.state_min));
            for (const auto& [outcome, part] : parts) minutes += of(part, opened(way.place, open), way.state);
            least = std::min(least, minutes);
        }
        return known_[key] = least;
    }

    const Outlook& outlook_;
    std::map<std::tuple<unsigned, unsigned, int>, double> known_;
};

struct Ratios {
    double mean = 0;
    double worst = 0;
};

Ratios ratios(int groups, int tests, int count) {
    Ratios found;
    for (unsigned seed = 0; seed < static_cast<unsigned>(count); ++seed) {
        const Outlook outlook = random_outlook(groups, tests, seed);
        const double least = EveryPlan(outlook).least_minutes();
        const Prospect prospect = Lookahead(outlook, {{0, 0, 0}, -1}).best();
        INFO(groups << " groups, " << tests << " tests, seed " << seed);
        CHECK(prospect.minutes >= least * (1 - 1e-9));
        found.mean += prospect.minutes / least / count;
        found.worst = std::max(found.worst, prospect.minutes / least);
    }
    return found;
}

}  // namespace

// The judge is the exhaustive search above, which shares nothing with the plans.
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
