#include "engine/diagnosis/next_test/lookahead.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <numeric>
#include <stdexcept>
#include <unordered_map>

namespace halfsplit::diagnosis {
namespace {

using Set = std::uint64_t;  ///< of groups, or of places

constexpr double kInfinite = std::numeric_limits<double>::infinity();

constexpr Set bit(int index) {
    return Set{1} << static_cast<unsigned>(index);
}

/// Calls `use` with the number of each member.
template <typename Use>
void for_each_of(Set set, const Use& use) {
    for (; set != 0; set &= set - 1) use(std::countr_zero(set));
}

/// Where the technician stands within a plan. Places from the 65th on count as never opened: no circuit has
/// so many.
struct Standing {
    Set open = 0;
    int state = -1;

    bool has_opened(int place) const { return place < 0 || (place < 64 && (open & bit(place)) != 0); }
    void go_to(int place) {
        if (place >= 0 && place < 64) open |= bit(place);
    }
};

struct Key {
    Set set = 0;
    Set open = 0;
    int state = 0;
    int depth = 0;
    friend bool operator==(const Key&, const Key&) = default;
};
struct KeyHash {
    std::size_t operator()(const Key& key) const {
        std::uint64_t hash = key.set * 0x9E3779B97F4A7C15ULL;
        hash = (hash ^ key.open) * 0xC2B2AE3D27D4EB4FULL;
        hash ^= static_cast<std::uint64_t>(key.state + 1) * 0x165667B19E3779F9ULL;
        hash ^= static_cast<std::uint64_t>(key.depth + 1) << 56U;
        return static_cast<std::size_t>(hash ^ (hash >> 29U));
    }
};

/// How many tests are judged by what comes behind them, at each depth from the ground up: fewer where many
/// groups are left, as then much will change before a plan is done.
int tests_to_try(int depth, int groups) {
    constexpr int kMany = 24;
    constexpr int kAtLast = 12;
    constexpr int kOfMany = 5;
    constexpr int kBefore = 6;
    if (groups > kMany) return kOfMany;
    return depth == 1 ? kAtLast : kBefore;
}

}  // namespace

class Lookahead::Search {
  public:
    Search(const Outlook& outlook, const Bench& bench) : outlook_(outlook) {
        if (outlook.groups.empty() || outlook.groups.size() > 64)
            throw std::invalid_argument("a lookahead takes 1 to 64 groups");
        standing_.state = bench.state;
        for (int place = 0; place < static_cast<int>(bench.open.size()); ++place)
            if (bench.open[at(place)] != 0) standing_.go_to(place);
        sort_groups();
        for (int test = 0; test < static_cast<int>(outlook.tests.size()); ++test) {
            std::vector<Set> members(at(outlook.tests[at(test)].outcome_count), 0);
            for (int group = 0; group < static_cast<int>(groups_.size()); ++group)
                members[at(outlook.outcome(test, number_[at(group)]))] |= bit(group);
            outcomes_.push_back(std::move(members));
        }
    }

    Prospect best() {
        const auto count = static_cast<int>(outlook_.groups.size());
        const Set all = count == 64 ? ~Set{0} : bit(count) - 1;
        const double probability = probability_of(all);
        Prospect prospect;
        const Repairs repairs = repairing(all, standing_);
        prospect.group = number_[at(repairs.first)];
        const int depth = depth_for(count);
        double minutes_repairing = repairs.minutes;
        if (count > 1)
            minutes_repairing =
                std::min(minutes_repairing, repairing_once(all, standing_, depth, minutes_repairing));
        prospect.minutes_repairing = minutes_repairing / probability;
        const Choice choice = best_test(all, standing_, depth, kInfinite);
        prospect.minutes_testing = choice.minutes / probability;
        const bool test_first = prospect.minutes_testing < prospect.minutes_repairing;
        prospect.test = test_first ? choice.test : -1;
        prospect.minutes = std::min(prospect.minutes_testing, prospect.minutes_repairing);
        return prospect;
    }

  private:
    /// In the order in which one would repair without testing: by probability per cost.
    void sort_groups() {
        const auto share = [this](int group) {
            const Outlook::Group& each = outlook_.groups[at(group)];
            constexpr double kNoDivisionByZero = 1e-9;
            return each.probability / (each.repair_min + access_minutes(each.place, standing_) +
                                       outlook_.needless_min + kNoDivisionByZero);
        };
        number_.resize(outlook_.groups.size());
        std::iota(number_.begin(), number_.end(), 0);
        std::ranges::stable_sort(number_, std::ranges::greater(), share);
        for (const int group : number_) groups_.push_back(outlook_.groups[at(group)]);
    }

    /// How often "what comes behind a test" is itself judged by what comes behind.
    static int depth_for(int groups) {
        constexpr int kExact = 8;
        constexpr int kFew = 16;
        if (groups <= kExact) return kWhole;
        return groups <= kFew ? 2 : 1;
    }

    double probability_of(Set set) const {
        double sum = 0;
        for_each_of(set, [&](int group) { sum += groups_[at(group)].probability; });
        return sum;
    }

    double access_minutes(int place, const Standing& standing) const {
        return standing.has_opened(place) ? 0 : outlook_.access_min[at(place)];
    }

    double minutes_of(const Outlook::Way& way, const Standing& standing) const {
        return way.minutes + access_minutes(way.place, standing) +
               (way.state == standing.state ? 0 : outlook_.state_min);
    }

    struct Repairs {
        double minutes = 0;  ///< weighted by the probability of the set, as all costs here
        int first = -1;
    };

    /// One group after the other without any test; the last needs to be the one.
    Repairs repairing(Set set, Standing standing) const {
        Repairs repairs;
        double left = probability_of(set);
        repairs.first = std::countr_zero(set);
        for_each_of(set, [&](int group) {
            const Outlook::Group& each = groups_[at(group)];
            repairs.minutes += left * (each.repair_min + access_minutes(each.place, standing));
            standing.go_to(each.place);
            set &= ~bit(group);
            left = set == 0 ? 0 : left - each.probability;
            repairs.minutes += left * outlook_.needless_min;
        });
        return repairs;
    }

    /// The likeliest group per cost first; if it was not that, going on as is best then. Infinite where that
    /// reaches `limit`.
    double repairing_once(Set set, Standing standing, int depth, double limit) {
        const int first = std::countr_zero(set);
        const Outlook::Group& group = groups_[at(first)];
        const Set rest = set & ~bit(first);
        const double minutes =
            probability_of(set) * (group.repair_min + access_minutes(group.place, standing)) +
            probability_of(rest) * outlook_.needless_min;
        if (minutes + least_minutes(rest) >= limit) return kInfinite;
        standing.go_to(group.place);
        return minutes + value(rest, standing, depth);
    }

    /// What the repairs alone cost at least.
    double least_minutes(Set set) const {
        double sum = 0;
        for_each_of(set, [&](int group) {
            const Outlook::Group& each = groups_[at(group)];
            sum += each.probability * each.repair_min;
        });
        return sum;
    }

    double value(Set set, const Standing& standing, int depth) {
        if (std::has_single_bit(set)) return repairing(set, standing).minutes;
        const Key key{set, standing.open, standing.state, depth};
        if (const auto known = known_.find(key); known != known_.end()) return known->second;
        double minutes = repairing(set, standing).minutes;
        minutes = std::min(minutes, best_test(set, standing, depth, minutes).minutes);
        minutes = std::min(minutes, repairing_once(set, standing, depth, minutes));
        known_.emplace(key, minutes);
        return minutes;
    }

    struct Choice {
        int test = -1;
        double minutes = kInfinite;
    };

    struct Scored {
        int test = 0;
        double minutes = 0;
        double bits_a_minute = 0;
    };

    /// Tests that divide the set, the base rule's choice first.
    std::vector<Scored> scored_tests(Set set, const Standing& standing) const {
        std::vector<Scored> scored;
        const double sum = probability_of(set);
        for (int test = 0; test < static_cast<int>(outcomes_.size()); ++test) {
            double bits = 0;
            int parts = 0;
            for (const Set members : outcomes_[at(test)]) {
                const Set part = set & members;
                if (part == 0) continue;
                ++parts;
                const double share = probability_of(part) / sum;
                if (share > 0) bits -= share * std::log2(share);
            }
            if (parts < 2) continue;
            const double minutes = minutes_of(outlook_.tests[at(test)], standing);
            scored.push_back({test, minutes, bits / std::max(minutes, 1e-9)});
        }
        std::ranges::stable_sort(scored, std::ranges::greater(), &Scored::bits_a_minute);
        return scored;
    }

    /// Those that cost `limit` or more may be passed over.
    Choice best_test(Set set, const Standing& standing, int depth, double limit) {
        Choice best;
        if (depth == kWhole && known_.size() > kMostKnown) depth = 1;
        const std::vector<Scored> scored = scored_tests(set, standing);
        std::size_t tries = 1;
        if (depth > 0) tries = depth == kWhole ? scored.size() : at(tests_to_try(depth, std::popcount(set)));
        const int next_depth = depth == kWhole ? kWhole : std::max(depth - 1, 0);
        const double probability = probability_of(set);
        for (std::size_t i = 0; i < std::min(tries, scored.size()); ++i) {
            const double so_far = probability * scored[i].minutes;
            const double known_limit = std::min(limit, best.minutes);
            if (so_far + least_minutes(set) >= known_limit) continue;
            const double minutes =
                minutes_with(scored[i].test, set, standing, next_depth, so_far, known_limit);
            if (minutes < best.minutes * kCheaper) best = {scored[i].test, minutes};
        }
        return best;
    }

    double minutes_with(int test, Set set, Standing standing, int depth, double so_far, double limit) {
        const Outlook::Way& way = outlook_.tests[at(test)];
        standing.go_to(way.place);
        standing.state = way.state;
        double least = least_minutes(set);
        for (const Set members : outcomes_[at(test)]) {
            const Set part = set & members;
            if (part == 0) continue;
            least -= least_minutes(part);
            so_far += value(part, standing, depth);
            if (so_far + least >= limit) return kInfinite;
        }
        return so_far;
    }

    static constexpr int kWhole = 100;  ///< a depth that no plan has: all is tried
    static constexpr std::size_t kMostKnown = 30'000;
    static constexpr double kCheaper = 1 - 1e-12;  ///< less by more than rounding

    const Outlook& outlook_;
    std::vector<Outlook::Group> groups_;      ///< in the order to repair them
    std::vector<int> number_;                 ///< of each in the outlook
    std::vector<std::vector<Set>> outcomes_;  ///< per test: the groups behind each outcome
    Standing standing_;
    std::unordered_map<Key, double, KeyHash> known_;
};

Lookahead::Lookahead(const Outlook& outlook, const Bench& bench)
    : search_(std::make_unique<Search>(outlook, bench)) {}

Lookahead::~Lookahead() = default;

Prospect Lookahead::best() {
    return search_->best();
}

}  // namespace halfsplit::diagnosis
