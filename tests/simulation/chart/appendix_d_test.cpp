#include "tests/simulation/chart/appendix_d.h"

#include <catch2/catch.hpp>

#include "tests/simulation/chart/random_chart.h"
#include "tests/support/chart_player.h"
#include "tests/support/sanitized.h"

namespace halfsplit::simulation {
namespace {

const std::vector<std::string> kEvents{"a", "b", "a.x", "c", "internal", "b.y",
                                       "a", "c", "b",   "a", "internal"};

std::vector<std::string> logged(ChartState& state) {
    std::vector<std::string> lines;
    for (const LogLine& line : take_log(state)) lines.push_back(line.text);
    return lines;
}

struct Seen {
    int microsteps = 0;
    int preempted = 0;
    int endless = 0;
    int finished = 0;
};

/// Runs the chart by the engine and by the letter, and compares after each event.
void compare(const model::chart::Chart& chart, Seen& seen) {
    const test::SetSenses senses;
    test::AppendixD letter(chart, kMaxMicrosteps);
    letter.interpret();
    auto state = start_chart(chart, senses, 0);
    for (std::size_t i = 0; i < kEvents.size() && !letter.endless; ++i) {
        REQUIRE(state);
        CHECK(logged(*state) == letter.trace);
        CHECK(state->configuration == letter.configuration);
        CHECK(state->finished == !letter.running);
        if (!letter.running) break;
        letter.trace.clear();
        letter.external(kEvents[i]);
        raise_event(*state, kEvents[i]);
        if (const auto done = act(chart, *state, senses, 0); !done) state = tl::unexpected(done.error());
    }
    if (letter.endless) CHECK_FALSE(state);
    seen.microsteps += letter.microsteps;
    seen.preempted += letter.preempted;
    seen.endless += letter.endless ? 1 : 0;
    seen.finished += letter.running || letter.endless ? 0 : 1;
}

}  // namespace

TEST_CASE("Random charts run as appendix D says by the letter") {
    constexpr unsigned kCharts = test::kSanitized ? 200 : 2000;
    Seen seen;
    for (unsigned seed = 1; seed <= kCharts; ++seed) {
        const std::string text = test::RandomChart(seed).text();
        INFO("seed " << seed << "\n" << text);
        compare(test::chart_of(text), seen);
    }
    // The charts must reach what they are there for.
    INFO(seen.microsteps << " microsteps, " << seen.preempted << " transitions preempted, " << seen.endless
                         << " charts endless, " << seen.finished << " finished");
    CHECK(seen.microsteps > 2.5 * kCharts);
    CHECK(seen.preempted > 0.1 * kCharts);
    CHECK(seen.endless > 0.0025 * kCharts);
    CHECK(seen.finished > 0.025 * kCharts);
}

}  // namespace halfsplit::simulation
