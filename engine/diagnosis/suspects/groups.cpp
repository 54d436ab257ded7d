#include "engine/diagnosis/suspects/groups.h"

#include <algorithm>
#include <numeric>
#include <optional>

namespace halfsplit::diagnosis {
namespace {

/// Where two differ: often so do the next two.
struct Where {
    int state = 0;
    int finding = 0;
};

constexpr std::size_t kRemembered = 12;

class Comparison {
  public:
    Comparison(const Hypotheses& hypotheses, const Permitted& permitted)
        : hypotheses_(hypotheses), permitted_(permitted) {}

    std::optional<Where> difference(int one, int other) const {
        for (const int state : permitted_.states) {
            const auto values = hypotheses_.values(one, state);
            const auto others = hypotheses_.values(other, state);
            for (const int finding : permitted_.findings) {
                // Equal values are by far the most: they need no closer look.
                if (values[at(finding)] == others[at(finding)]) continue;
                if (differ_at(one, other, {state, finding})) return Where{state, finding};
            }
        }
        return std::nullopt;
    }

    bool differ_at(int one, int other, const Where& where) const {
        return are_told_apart(hypotheses_.dictionary().findings[at(where.finding)].kind,
                              hypotheses_.expectation(one, where.state, where.finding),
                              hypotheses_.expectation(other, where.state, where.finding));
    }

  private:
    const Hypotheses& hypotheses_;
    const Permitted& permitted_;
};

}  // namespace

bool can_be_told_apart(const Hypotheses& hypotheses, int one, int other, const Permitted& permitted) {
    return Comparison(hypotheses, permitted).difference(one, other).has_value();
}

std::vector<std::vector<int>> ambiguity_groups(const Hypotheses& hypotheses, const std::vector<int>& members,
                                               const Permitted& permitted) {
    const Comparison comparison(hypotheses, permitted);
    std::vector<std::vector<int>> groups;
    std::vector<Where> telling;  // where others differed, the last first
    const auto differ = [&](int one, int other) {
        const auto known = std::ranges::find_if(
            telling, [&](const Where& where) { return comparison.differ_at(one, other, where); });
        if (known != telling.end()) {
            std::rotate(telling.begin(), known, known + 1);
            return true;
        }
        const auto where = comparison.difference(one, other);
        if (!where) return false;
        telling.insert(telling.begin(), *where);
        telling.resize(std::min(telling.size(), kRemembered));
        return true;
    };
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
