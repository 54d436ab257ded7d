#include "engine/diagnosis/next_test/decide.h"

#include <algorithm>
#include <limits>
#include <span>
#include <utility>
#include <vector>

#include "engine/diagnosis/next_test/portion.h"
#include "engine/diagnosis/suspects/weights.h"

namespace halfsplit::diagnosis {
namespace {

/// What is told of one of a group goes for all of it.
constexpr std::size_t kLookedAt = 8;  // of a group

/// How many findings are worked out while somebody waits.
constexpr std::size_t kFindingsAwaited = 600;

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

std::size_t rows_awaited(const Hypotheses& hypotheses, Patience patience) {
    return patience == Patience::until_settled ? std::numeric_limits<std::size_t>::max()
                                               : rows_of(hypotheses, kFindingsAwaited);
}

}  // namespace

Decision decide(Hypotheses& hypotheses, const Evidence& evidence, const Workshop& workshop,
                const Bench& bench, const Permitted& permitted, Patience patience) {
    const std::vector<int> states = states_of(evidence.readings);
    std::size_t left = rows_awaited(hypotheses, patience);
    while (true) {
        Decision decision{rank(hypotheses, evidence), {}};
        decision.choice = choose(hypotheses, decision.ranking, evidence, workshop, bench, permitted);
        // Ends: a row that was settled stays so, and none is put into what stands twice.
        std::vector<Hypotheses::Row> rows = unsettled(hypotheses, decision.choice, states);
        if (rows.empty()) return decision;
        if (decision.choice.has_test()) rows.resize(std::min(rows.size(), left));
        if (rows.empty()) {
            decision.choice.kind = Choice::Kind::test;
            decision.choice.is_meanwhile = true;
            return decision;
        }
        hypotheses.settle(rows);
        left -= std::min(rows.size(), left);
    }
}

}  // namespace halfsplit::diagnosis
