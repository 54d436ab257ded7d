#include "engine/diagnosis/next_test/decide.h"

#include <algorithm>
#include <functional>
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

/// How many findings are worked out while somebody waits. Measured on two threads: 10 to 25 ms in a single
/// circuit, and the two rows of a whole vehicle, that are 6 000, 0.3 s.
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

/// As if this one were as likely as all single faults together, and no other pair in question: what to test
/// where nothing is left beside it. Other pairs would have to be worked out first.
Ranking doubted(const Hypotheses& hypotheses, const Ranking& ranking, int foremost) {
    constexpr double kEven = 0.5;
    Ranking even = ranking;
    even.other_pairs = 0;
    double rest = 0;
    for (const int each : ranking.order) {
        double& probability = even.probability[at(each)];
        if (each == foremost || hypotheses.is_pair(each)) probability = 0;
        rest += probability;
    }
    if (rest > 0)
        for (double& each : even.probability) each *= kEven / rest;
    even.probability[at(foremost)] = kEven;
    std::ranges::stable_sort(even.order, std::ranges::greater(),
                             [&even](int each) { return even.probability[at(each)]; });
    return even;
}

/// The test to be taken meanwhile, where that tells anything. What its outcomes mean is told as it is really
/// known; only its bits are those of even odds.
void find_test(Hypotheses& hypotheses, Decision& decision, const Evidence& evidence, const Workshop& workshop,
               const Bench& bench, const Permitted& permitted) {
    const Ranking& ranking = decision.ranking;
    Choice test = choose(hypotheses, doubted(hypotheses, ranking, decision.choice.group.front()), evidence,
                         workshop, bench, permitted);
    if (!test.has_test()) return;
    test.group = std::move(decision.choice.group);
    test.probability = decision.choice.probability;
    test.minutes_to_go = decision.choice.minutes_to_go;
    test.minutes_repairing_now = decision.choice.minutes_repairing_now;
    for (Choice::Split& split : test.splits) {
        split.probability = 0;
        for (const int each : split.hypotheses) split.probability += ranking.probability[at(each)];
    }
    decision.choice = std::move(test);
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
        if (left == 0) {
            if (!decision.choice.has_test())
                find_test(hypotheses, decision, evidence, workshop, bench, permitted);
            if (decision.choice.has_test()) {
                decision.choice.kind = Choice::Kind::test;
                decision.choice.is_meanwhile = true;
                return decision;
            }
        } else {
            rows.resize(std::min(rows.size(), left));
        }
        hypotheses.settle(rows);
        left -= std::min(rows.size(), left);
    }
}

}  // namespace halfsplit::diagnosis
