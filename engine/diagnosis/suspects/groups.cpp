#include "engine/diagnosis/suspects/groups.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace halfsplit::diagnosis {
namespace {

constexpr std::size_t kRemembered = 12;

}  // namespace

bool TellingApart::differ_at(int one, int other, const Where& where) const {
    return hypotheses_.expecting(where.state, where.finding)
        .tells_apart(hypotheses_.values(one, where.state)[at(where.finding)],
                     hypotheses_.values(other, where.state)[at(where.finding)],
                     hypotheses_.weighed_as(where.state));
}

std::optional<TellingApart::Where> TellingApart::difference(int one, int other) const {
    for (const int state : permitted_.states) {
        const auto values = hypotheses_.values(one, state);
        const auto others = hypotheses_.values(other, state);
        const auto least = hypotheses_.least_apart(state);
        for (const int finding : permitted_.findings) {
            // Most is the same, or differs by a rounding, and needs no closer look.
            if (!(std::abs(values[at(finding)] - others[at(finding)]) > least[at(finding)])) continue;
            if (differ_at(one, other, {state, finding})) return Where{state, finding};
        }
    }
    return std::nullopt;
}

bool TellingApart::operator()(int one, int other) {
    const auto known =
        std::ranges::find_if(remembered_, [&](const Where& where) { return differ_at(one, other, where); });
    if (known != remembered_.end()) {
        std::rotate(remembered_.begin(), known, known + 1);
        return true;
    }
    const auto where = difference(one, other);
    if (!where) return false;
    remembered_.insert(remembered_.begin(), *where);
    remembered_.resize(std::min(remembered_.size(), kRemembered));
    return true;
}

std::vector<std::vector<int>> ambiguity_groups(const Hypotheses& hypotheses, const std::vector<int>& members,
                                               const Permitted& permitted) {
    TellingApart differ(hypotheses, permitted);
    std::vector<std::vector<int>> groups;
    for (const int each : members) {
        const auto group = std::ranges::find_if(
            groups, [&](const std::vector<int>& of) { return !differ(of.front(), each); });
        if (group == groups.end())
            groups.push_back({each});
        else
            group->push_back(each);
    }
    return groups;
}

std::vector<std::vector<int>> ambiguity_groups(const Hypotheses& hypotheses, const Permitted& permitted) {
    std::vector<int> all(at(hypotheses.count()));
    std::iota(all.begin(), all.end(), 0);
    return ambiguity_groups(hypotheses, all, permitted);
}

}  // namespace halfsplit::diagnosis
