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
constexpr std::size_t kPortion = kThreadsBetweenReadings;

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
    std::vector<Hypotheses::Row> rows;
    for (std::size_t i = 0; i < std::min(kForemost, ranking.order.size()); ++i) {
        const int each = ranking.order[i];
        if (ranking.probability[at(each)] < kWorthSettling) break;
        for (const int state : hypotheses.unsettled_in(each, states))
            if (rows.size() < kPortion) rows.push_back({each, state});
    }
    hypotheses.settle(rows);
    return !rows.empty();
}

}  // namespace halfsplit::diagnosis
