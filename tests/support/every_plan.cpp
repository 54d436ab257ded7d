#include "tests/support/every_plan.h"

#include <algorithm>
#include <limits>
#include <stdexcept>
#include <vector>

namespace halfsplit::test {

using diagnosis::Outlook;

namespace {

constexpr unsigned bit_of(int index) {
    return 1U << static_cast<unsigned>(index);
}

unsigned opened(int place, unsigned open) {
    return place < 0 ? open : open | bit_of(place);
}

}  // namespace

EveryPlan::EveryPlan(const Outlook& outlook) : outlook_(outlook) {
    if (outlook.groups.size() > 16 || outlook.access_min.size() > 32)
        throw std::invalid_argument("too much to try everything");
}

double EveryPlan::least_minutes() {
    const unsigned all = (1U << outlook_.groups.size()) - 1;
    return of(all, 0, -1) / probability(all);
}

double EveryPlan::probability(unsigned set) const {
    double sum = 0;
    for (int group = 0; group < static_cast<int>(outlook_.groups.size()); ++group)
        if ((set & bit_of(group)) != 0) sum += outlook_.groups[at(group)].probability;
    return sum;
}

double EveryPlan::access(int place, unsigned open) const {
    return place < 0 || (open & bit_of(place)) != 0 ? 0 : outlook_.access_min[at(place)];
}

double EveryPlan::of(unsigned set, unsigned open, int state) {
    if (set == 0) return 0;
    const std::uint64_t key = set | static_cast<std::uint64_t>(state + 1) << 16U | std::uint64_t{open} << 32U;
    if (const auto known = known_.find(key); known != known_.end()) return known->second;
    const double least = std::min(by_repair(set, open, state), by_test(set, open, state));
    known_.emplace(key, least);
    return least;
}

double EveryPlan::by_repair(unsigned set, unsigned open, int state) {
    double least = std::numeric_limits<double>::infinity();
    for (int group = 0; group < static_cast<int>(outlook_.groups.size()); ++group) {
        if ((set & bit_of(group)) == 0) continue;
        const Outlook::Group& each = outlook_.groups[at(group)];
        const unsigned rest = set & ~bit_of(group);
        least = std::min(least, probability(set) * (each.repair_min + access(each.place, open)) +
                                    probability(rest) * outlook_.needless_min +
                                    of(rest, opened(each.place, open), state));
    }
    return least;
}

double EveryPlan::by_test(unsigned set, unsigned open, int state) {
    double least = std::numeric_limits<double>::infinity();
    for (int test = 0; test < static_cast<int>(outlook_.tests.size()); ++test) {
        const Outlook::Way& way = outlook_.tests[at(test)];
        std::vector<unsigned> parts(at(way.outcome_count), 0);
        for (int group = 0; group < static_cast<int>(outlook_.groups.size()); ++group)
            if ((set & bit_of(group)) != 0) parts[at(outlook_.outcome(test, group))] |= bit_of(group);
        if (std::ranges::count_if(parts, [](unsigned part) { return part != 0; }) < 2) continue;
        double minutes = probability(set) * (way.minutes + access(way.place, open) +
                                             (way.state == state ? 0 : outlook_.state_min));
        for (const unsigned part : parts) minutes += of(part, opened(way.place, open), way.state);
        least = std::min(least, minutes);
    }
    return least;
}

}  // namespace halfsplit::test
