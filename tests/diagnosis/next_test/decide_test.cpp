#include <catch2/catch.hpp>

#include <algorithm>

#include "engine/diagnosis/next_test/decide.h"
#include "tests/diagnosis/suspects/hand_made.h"

using namespace halfsplit;
using diagnosis::Choice;
using diagnosis::Hypotheses;
using diagnosis::Told;

namespace {

constexpr int kLikely = 9;  // faults that look alike as it stands

/// Told as they stand, all take the point to 6 V; the last is rare.
diagnosis::Dictionary put_into_what_stands() {
    std::vector<std::vector<double>> rows{{12}};
    std::vector<double> rates;
    for (int i = 0; i < kLikely; ++i) {
        rows.push_back({6});
        rates.push_back(1);
    }
    rows.push_back({6});
    rates.push_back(0.3);
    diagnosis::Dictionary dictionary = test::dictionary_of(rows, rates);
    std::ranges::fill(dictionary.told, Told::as_it_stands);
    dictionary.told.front() = Told::exactly;
    return dictionary;
}

diagnosis::Decision decided_at_6_v(Hypotheses& hypotheses) {
    const auto workshop = test::even_workshop(hypotheses.dictionary());
    return diagnosis::decide(hypotheses, {{{0, 0, 6}}, {}, true}, workshop, diagnosis::fresh_bench(workshop),
                             diagnosis::all_permitted(hypotheses.dictionary()));
}

}  // namespace

TEST_CASE("Of those that nothing tells apart one is settled for all") {
    const auto dictionary = put_into_what_stands();
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    int settled = 0;
    Hypotheses hypotheses(dictionary, spread, {}, {}, [&](std::span<const diagnosis::FaultsInState> wanted) {
        settled += static_cast<int>(wanted.size());
        return std::vector(wanted.size(), diagnosis::PredictedRow{{6}, Told::exactly});
    });
    const auto decision = decided_at_6_v(hypotheses);
    CHECK(decision.choice.kind == Choice::Kind::repair);
    CHECK(decision.choice.group.size() == kLikely + 1);
    CHECK(settled == 1);
}

TEST_CASE("Nobody repairs what was not settled") {
    const auto dictionary = put_into_what_stands();
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    int settled = 0;
    // In truth the likely ones let the point be as it should, and only the rare one takes it to 6 V.
    Hypotheses hypotheses(dictionary, spread, {}, {}, [&](std::span<const diagnosis::FaultsInState> wanted) {
        settled += static_cast<int>(wanted.size());
        std::vector<diagnosis::PredictedRow> rows;
        for (const auto& each : wanted)
            rows.push_back({{each.faults.front() == kLikely ? 6.0F : 12.0F}, Told::exactly});
        return rows;
    });
    const auto decision = decided_at_6_v(hypotheses);
    CHECK(decision.choice.kind == Choice::Kind::repair);
    CHECK(decision.choice.group.front() == kLikely + 1);
    CHECK(decision.ranking.best() == kLikely + 1);
    CHECK(settled == kLikely + 1);
}
