#include "engine/diagnosis/suspects/groups.h"

#include <numeric>
#include <optional>

namespace halfsplit::diagnosis {
namespace {

/// Where two of a kind differ: the same often tells the next from the first too.
struct Where {
    int state = 0;
    int finding = 0;
};

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
    std::vector<std::optional<Where>> last_difference;  // from each group's first member
    for (const int each : members) {
        std::size_t group = 0;
        for (; group < groups.size(); ++group) {
            const int first = groups[group].front();
            auto& last = last_difference[group];
            if (last && comparison.differ_at(first, each, *last)) continue;
            const auto where = comparison.difference(first, each);
            if (!where) break;
            last = where;
        }
        if (group == groups.size()) {
            groups.emplace_back();
            last_difference.emplace_back();
        }
        groups[group].push_back(each);
    }
    return groups;
}

std::vector<std::vector<int>> ambiguity_groups(const Hypotheses& hypotheses, const Permitted& permitted) {
    std::vector<int> all(at(hypotheses.count()));
    std::iota(all.begin(), all.end(), 0);
    return ambiguity_groups(hypotheses, all, permitted);
}

}  // namespace halfsplit::diagnosis
