#include "engine/diagnosis/next_test/think_ahead.h"

#include <algorithm>
#include <vector>

#include "engine/diagnosis/dictionary/share_out.h"
#include "engine/diagnosis/suspects/weights.h"

namespace halfsplit::diagnosis {
namespace {

/// Who is likely enough to be the foremost after the next reading.
constexpr std::size_t kForemost = 4;
constexpr double kWorthSettling = 0.05;

/// How many findings are worked out in a portion: settling anew takes the longer the larger a circuit is.
constexpr std::size_t kFindingsInPortion = 5000;

std::size_t rows_in_portion(const Hypotheses& hypotheses) {
    const std::size_t rows = kFindingsInPortion / hypotheses.dictionary().findings.size();
    return std::max<std::size_t>(rows, kThreadsBetweenReadings);
}

std::vector<int> states_needed(const Choice& choice, const Evidence& evidence) {
    std::vector<int> states = states_of(evidence.readings);
    if (choice.kind == Choice::Kind::test && std::ranges::find(states, choice.test.state) == states.end())
        states.push_back(choice.test.state);
    return states;
}

}  // namespace

bool think_ahead(Hypotheses& hypotheses, const Ranking& ranking, const Choice& choice,
                 const Evidence& evidence) {
    const std::vector<int> states = states_needed(choice, evidence);
    const std::size_t most = rows_in_portion(hypotheses);
    std::vector<Hypotheses::Row> rows;
    const auto take = [&](int hypothesis) {
        for (const int state : hypotheses.unsettled_in(hypothesis, states))
            if (rows.size() < most) rows.push_back({hypothesis, state});
    };
    for (std::size_t i = 0; i < std::min(kForemost, ranking.order.size()); ++i)
        if (ranking.probability[at(ranking.order[i])] >= kWorthSettling) take(ranking.order[i]);
    for (const FaultPair& pair : ranking.promising)
        if (const int hypothesis = hypotheses.find_pair(pair); hypothesis >= 0) take(hypothesis);
    hypotheses.settle(rows);
    return !rows.empty();
}

}  // namespace halfsplit::diagnosis
