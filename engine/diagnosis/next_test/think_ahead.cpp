#include "engine/diagnosis/next_test/think_ahead.h"

#include <algorithm>
#include <set>
#include <span>
#include <vector>

#include "engine/diagnosis/next_test/portion.h"
#include "engine/diagnosis/suspects/weights.h"

namespace halfsplit::diagnosis {
namespace {

/// Who is likely enough to be the foremost after the next reading; and who is where a portion is many rows.
/// All figures here are by trial; in a whole vehicle all of the latter would fill every portion there is.
constexpr std::size_t kForemost = 4;
constexpr double kWorthSettling = 0.05;
constexpr double kWorthWhileQuick = 0.005;

/// How many findings are worked out in a portion.
constexpr std::size_t kFindingsInPortion = 5000;

std::vector<int> states_needed(const Choice& choice, const Evidence& evidence) {
    std::vector<int> states = states_of(evidence.readings);
    if (choice.kind == Choice::Kind::test && std::ranges::find(states, choice.test.state) == states.end())
        states.push_back(choice.test.state);
    return states;
}

/// The most useful first, some of them twice.
std::vector<int> worth_settling(const Hypotheses& hypotheses, const Ranking& ranking, const Choice& choice,
                                std::size_t most) {
    std::vector<int> wanted;
    const auto take_foremost = [&](std::size_t count, double least_probability) {
        for (const int each : std::span(ranking.order).first(std::min(count, ranking.order.size())))
            if (ranking.probability[at(each)] >= least_probability) wanted.push_back(each);
    };
    if (choice.is_meanwhile) wanted.push_back(choice.group.front());
    take_foremost(kForemost, kWorthSettling);
    for (const FaultPair& pair : ranking.promising)
        if (const int hypothesis = hypotheses.find_pair(pair); hypothesis >= 0) wanted.push_back(hypothesis);
    take_foremost(most, kWorthWhileQuick);
    return wanted;
}

}  // namespace

bool think_ahead(Hypotheses& hypotheses, const Ranking& ranking, const Choice& choice,
                 const Evidence& evidence) {
    const std::vector<int> states = states_needed(choice, evidence);
    const std::size_t most = rows_of(hypotheses, kFindingsInPortion);
    std::vector<Hypotheses::Row> rows;
    std::set<int> seen;
    for (const int hypothesis : worth_settling(hypotheses, ranking, choice, most)) {
        if (!seen.insert(hypothesis).second) continue;
        for (const int state : hypotheses.unsettled_in(hypothesis, states))
            if (rows.size() < most) rows.push_back({hypothesis, state});
    }
    hypotheses.settle(rows);
    return !rows.empty();
}

}  // namespace halfsplit::diagnosis
