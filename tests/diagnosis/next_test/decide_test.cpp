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
constexpr int kTelling = 10;  // the point that tells the three apart

/// Of three faults, each so many times as rare as the one before, all take what was read to 6 V as it stands.
diagnosis::Dictionary three_to_be_settled(double rarer, int read) {
    std::vector<std::vector<double>> rows(4, std::vector<double>(kPoints, 12));
    for (std::size_t row = 1; row < rows.size(); ++row) {
        std::fill_n(rows[row].begin(), read, 6);
        rows[row][kTelling] = 2.0 * static_cast<double>(row);
    }
    diagnosis::Dictionary dictionary = test::dictionary_of(rows, {rarer * rarer, rarer, 1});
    std::ranges::fill(dictionary.told, Told::as_it_stands);
    dictionary.told.front() = Told::exactly;
    return dictionary;
}

/// In truth only the rarest does.
diagnosis::Predict only_the_third(int read) {
    return [read](std::span<const diagnosis::FaultsInState> wanted) {
        std::vector<diagnosis::PredictedRow> rows;
        for (const auto& each : wanted) {
            std::vector<float> values(kPoints, 12);
            if (each.faults.front() == 2) std::fill_n(values.begin(), read, 6.0F);
            rows.push_back({std::move(values), Told::exactly});
        }
        return rows;
    };
}

}  // namespace

TEST_CASE("Nobody waits for many to be settled, but takes the best test meanwhile") {
    // Four readings leave the others a hundredth. Eight leave them less than anybody tests for.
    const auto [rarer, read] = GENERATE(table<double, int>({{100, 4}, {1000, 8}}));
    const auto dictionary = three_to_be_settled(rarer, read);
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    Hypotheses hypotheses(dictionary, spread, {}, {}, only_the_third(read));
    const auto workshop = test::even_workshop(dictionary);
    diagnosis::Evidence evidence{{}, {}, true};
    for (int finding = 0; finding < read; ++finding) evidence.readings.push_back({0, finding, 6});
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
    CHECK(std::ranges::any_of(meanwhile.choice.splits, [](const Choice::Split& split) {
        return split.hypotheses == std::vector{3} && split.probability > 0.98;
    }));

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
