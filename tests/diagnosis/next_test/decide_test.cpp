#include <catch2/catch.hpp>

#include <algorithm>

#include "engine/diagnosis/next_test/decide.h"
#include "engine/diagnosis/next_test/think_ahead.h"
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
                             diagnosis::all_permitted(hypotheses.dictionary()),
                             diagnosis::Patience::until_settled);
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

namespace {

constexpr int kPoints = 300;  // so many that two rows are all that anybody waits for
constexpr int kRead = 4;      // of them
constexpr int kTelling = 5;   // the point that tells the three apart

/// Of three faults, each a hundred times as rare as the one before, all take what was read to 6 V as it
/// stands.
diagnosis::Dictionary three_to_be_settled() {
    std::vector<std::vector<double>> rows(4, std::vector<double>(kPoints, 12));
    for (std::size_t row = 1; row < rows.size(); ++row) {
        std::fill_n(rows[row].begin(), kRead, 6);
        rows[row][kTelling] = 2.0 * static_cast<double>(row);
    }
    diagnosis::Dictionary dictionary = test::dictionary_of(rows, {1e4, 100, 1});
    std::ranges::fill(dictionary.told, Told::as_it_stands);
    dictionary.told.front() = Told::exactly;
    return dictionary;
}

/// In truth only the rarest does.
std::vector<diagnosis::PredictedRow> only_the_third(std::span<const diagnosis::FaultsInState> wanted) {
    std::vector<diagnosis::PredictedRow> rows;
    for (const auto& each : wanted) {
        std::vector<float> values(kPoints, 12);
        if (each.faults.front() == 2) std::fill_n(values.begin(), kRead, 6.0F);
        rows.push_back({std::move(values), Told::exactly});
    }
    return rows;
}

}  // namespace

TEST_CASE("Nobody waits for many to be settled, but takes the best test meanwhile") {
    const auto dictionary = three_to_be_settled();
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    Hypotheses hypotheses(dictionary, spread, {}, {}, only_the_third);
    const auto workshop = test::even_workshop(dictionary);
    const diagnosis::Evidence evidence{{{0, 0, 6}, {0, 1, 6}, {0, 2, 6}, {0, 3, 6}}, {}, true};
    const auto decided = [&](diagnosis::Patience patience) {
        return diagnosis::decide(hypotheses, evidence, workshop, diagnosis::fresh_bench(workshop),
                                 diagnosis::all_permitted(dictionary), patience);
    };
    const std::vector<int> here{0};
    const auto meanwhile = decided(diagnosis::Patience::somebody_waits);
    CHECK(hypotheses.unsettled_in(1, here).empty());
    CHECK(hypotheses.unsettled_in(2, here).empty());
    CHECK_FALSE(hypotheses.unsettled_in(3, here).empty());
    CHECK(meanwhile.choice.kind == Choice::Kind::test);
    CHECK(meanwhile.choice.is_meanwhile);
    CHECK(meanwhile.choice.test.finding == kTelling);
    CHECK(meanwhile.choice.group.front() == 3);

    SECTION("and what is lacking is settled while that is taken") {
        CHECK(diagnosis::think_ahead(hypotheses, meanwhile.ranking, meanwhile.choice, evidence));
        const auto after = decided(diagnosis::Patience::somebody_waits);
        CHECK(after.choice.kind == Choice::Kind::repair);
        CHECK_FALSE(after.choice.is_meanwhile);
        CHECK(after.choice.group.front() == 3);
    }
    SECTION("unless nobody waits") {
        const auto settled = decided(diagnosis::Patience::until_settled);
        CHECK(settled.choice.kind == Choice::Kind::repair);
        CHECK(settled.choice.group.front() == 3);
        CHECK(hypotheses.unsettled_in(3, here).empty());
    }
}
