#include "engine/diagnosis/next_test/decide.h"

#include <algorithm>
#include <span>
#include <utility>
#include <vector>

#include "engine/diagnosis/suspects/weights.h"

namespace halfsplit::diagnosis {
namespace {

/// What is told of one of a group goes for all of it.
constexpr std::size_t kLookedAt = 8;  // of a group

bool is_settled(const Hypotheses& hypotheses, const std::vector<int>& group, const std::vector<int>& states) {
    const auto first = std::span(group).first(std::min(group.size(), kLookedAt));
    return std::ranges::any_of(first,
                               [&](int each) { return hypotheses.unsettled_in(each, states).empty(); });
}

std::vector<Hypotheses::Row> unsettled(const Hypotheses& hypotheses, const Choice& choice,
                                       const std::vector<int>& states) {
    std::vector<Hypotheses::Row> rows;
    if (choice.kind != Choice::Kind::repair || is_settled(hypotheses, choice.group, states)) return rows;
    const int foremost = choice.group.front();
    for (const int state : hypotheses.unsettled_in(foremost, states)) rows.push_back({foremost, state});
    return rows;
}

}  // namespace

Decision decide(Hypotheses& hypotheses, const Evidence& evidence, const Workshop& workshop,
                const Bench& bench, const Permitted& permitted) {
    const std::vector<int> states = states_of(evidence.readings);
    while (true) {
        Decision decision{rank(hypotheses, evidence), {}};
        decision.choice = choose(hypotheses, decision.ranking, evidence, workshop, bench, permitted);
        // Ends: a row that was settled stays so, and none is put into what stands twice.
        const auto rows = unsettled(hypotheses, decision.choice, states);
        if (rows.empty()) return decision;
        hypotheses.settle(rows);
    }
}

}  // namespace halfsplit::diagnosis
