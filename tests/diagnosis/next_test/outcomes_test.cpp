#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <optional>
#include <random>

#include "engine/diagnosis/next_test/outcomes.h"
#include "engine/diagnosis/next_test/screening.h"
#include "tests/diagnosis/suspects/hand_made.h"

using namespace halfsplit;
using diagnosis::Hypotheses;

namespace {

constexpr double kNobodyKnows = std::numeric_limits<double>::quiet_NaN();

/// Of all hypotheses, by their priors.
double bits(const Hypotheses& hypotheses, int finding) {
    std::vector<int> all(at(hypotheses.count()));
    std::iota(all.begin(), all.end(), 0);
    std::vector<double> prior;
    for (const int each : all) prior.push_back(hypotheses.prior(each));
    return diagnosis::information_bits(hypotheses, all, prior, {0, finding});
}

// Three multipliers and two adders: A = 3, B = C = 2, D = E = 3, X = A C, Y = B D, Z = C E, F = X + Y,
// G = Y + Z; observed F = 10 and G = 12 (de Kleer & Williams, AIJ 32(1), 1987, from memory).
enum Component { kA1, kA2, kM1, kM2, kM3 };

struct Lines {
    std::optional<double> x;
    std::optional<double> y;
    std::optional<double> z;
};

/// What can be said about the lines when exactly these are faulty; nullopt where that contradicts what was
/// observed.
std::optional<Lines> lines_with(unsigned faulty) {
    const auto sound = [faulty](Component each) {
        return ((faulty >> static_cast<unsigned>(each)) & 1U) == 0;
    };
    Lines lines;
    bool contradiction = false;
    const auto learn = [&contradiction](std::optional<double>& line, double value) {
        contradiction = contradiction || (line && *line != value);
        line = value;
    };
    if (sound(kM1)) learn(lines.x, 6);
    if (sound(kM2)) learn(lines.y, 6);
    if (sound(kM3)) learn(lines.z, 6);
    for (int round = 0; round < 3; ++round) {
        if (sound(kA1) && lines.y) learn(lines.x, 10 - *lines.y);
        if (sound(kA1) && lines.x) learn(lines.y, 10 - *lines.x);
        if (sound(kA2) && lines.y) learn(lines.z, 12 - *lines.y);
        if (sound(kA2) && lines.z) learn(lines.y, 12 - *lines.z);
    }
    if (contradiction) return std::nullopt;
    return lines;
}

}  // namespace

TEST_CASE("The best next probe at the three multipliers and two adders is X") {
    std::vector<std::vector<double>> rows{{6, 6, 6}};
    std::vector<double> rates;
    for (unsigned faulty = 1; faulty < 32; ++faulty) {
        const auto lines = lines_with(faulty);
        if (!lines) continue;
        rows.push_back({lines->x.value_or(kNobodyKnows), lines->y.value_or(kNobodyKnows),
                        lines->z.value_or(kNobodyKnows)});
        double prior = 1;
        for (unsigned each = 0; each < 5; ++each) prior *= ((faulty >> each) & 1U) != 0 ? 0.01 : 0.99;
        rates.push_back(prior);
    }
    // Reference: 27 candidates are consistent; the likeliest two have 0.478026426 each.
    REQUIRE(rates.size() == 27);
    const auto dictionary = test::dictionary_of(rows, rates);
    const auto spread = diagnosis::equal_spread(dictionary, 0.01);
    auto assumptions = test::exact_readings();
    assumptions.sound_share = 0;
    const Hypotheses hypotheses(dictionary, spread, assumptions);
    CHECK(hypotheses.prior(1) == Approx(0.478026426).epsilon(1e-8));
    CHECK(bits(hypotheses, 0) > bits(hypotheses, 1));
    CHECK(bits(hypotheses, 0) > bits(hypotheses, 2));
    CHECK(bits(hypotheses, 0) > 0.9);
}

// Shannon: a test that divides what is left in two halves without doubt gives one bit; by hand, 1 - 2 H(e)
// for a binary symmetric channel of error e.
TEST_CASE("Information is that of the channel a reading is") {
    const auto dictionary = test::dictionary_of({{0}, {10}});
    auto assumptions = test::exact_readings();
    assumptions.sound_share = 0.5;
    const auto sharp = diagnosis::equal_spread(dictionary, 0.01);
    CHECK(bits({dictionary, sharp, assumptions}, 0) == Approx(1));
    const double error = 0.5 * std::erfc(1 / std::sqrt(2.0));  // 5 V off, 5 V of scatter
    const double capacity = 1 + error * std::log2(error) + (1 - error) * std::log2(1 - error);
    const auto blurred = diagnosis::equal_spread(dictionary, 5);
    CHECK(bits({dictionary, blurred, assumptions}, 0) == Approx(capacity).epsilon(1e-6));
}

TEST_CASE("Information is never below nothing and nothing only where all say the same") {
    std::mt19937 generator(5);
    std::uniform_real_distribution<double> share(0, 1);
    for (int round = 0; round < 300; ++round) {
        INFO("round " << round);
        const int count = 2 + static_cast<int>(generator() % 100);
        std::vector<std::vector<double>> rows;
        std::vector<double> rates;
        const bool alike = round % 5 == 0;
        const double scale = std::pow(10, -3 * share(generator));
        for (int row = 0; row < count; ++row) {
            const double value = alike ? 3 : std::floor(share(generator) * 5) * scale;
            rows.push_back({share(generator) < 0.05 ? kNobodyKnows : value});
            if (row > 0) rates.push_back(0.01 + share(generator));
        }
        rows[0] = {3};
        rows[1] = {alike ? 3 : 3 + scale};
        auto dictionary = test::dictionary_of(rows, rates);
        const auto spread = diagnosis::equal_spread(dictionary, 0.05);
        const Hypotheses hypotheses(dictionary, spread, {});
        const double found = bits(hypotheses, 0);
        if (alike)
            CHECK(found == 0);
        else
            CHECK(found > 0);
        CHECK(found <= std::log2(count) + 1e-9);
        diagnosis::Live all;
        for (int each = 0; each < count; ++each) {
            all.hypotheses.push_back(each);
            all.probability.push_back(hypotheses.prior(each));
        }
        const auto rough = diagnosis::rough_bits(hypotheses, all, diagnosis::all_permitted(dictionary));
        CHECK(rough[0] >= (alike ? 0 : -1e-9));
        CHECK((!alike || rough[0] == 0));
    }
}

TEST_CASE("Outcomes are what the limits keep apart, and what says nothing goes with the likeliest") {
    const auto dictionary =
        test::dictionary_of({{0}, {0.1}, {6}, {6.2}, {12}, {kNobodyKnows}}, {1, 5, 5, 1, 1});
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    const Hypotheses hypotheses(dictionary, spread, test::exact_readings());
    const std::vector<int> all{0, 1, 2, 3, 4, 5};
    const std::vector<double> probability{0.1, 0.1, 0.3, 0.3, 0.1, 0.1};
    const auto outcomes = diagnosis::outcomes_of(hypotheses, all, probability, {0, 0});
    REQUIRE(outcomes.size() == 3);
    CHECK(outcomes[0].members == std::vector<int>{0, 1});
    CHECK(outcomes[1].members == std::vector<int>{2, 3, 5});
    CHECK(outcomes[1].probability == Approx(0.7));
    CHECK(outcomes[1].low == Approx(6));
    CHECK(outcomes[1].high == Approx(6.2));
    CHECK(outcomes[2].members == std::vector<int>{4});
}

TEST_CASE("Thinning keeps the shares of what is likely") {
    diagnosis::Live live;
    for (int i = 0; i < 1000; ++i) {
        live.hypotheses.push_back(i);
        live.probability.push_back(i < 10 ? 0.05 : 0.5 / 990);
    }
    const diagnosis::Live thin = diagnosis::thinned(live, 100);
    CHECK(thin.hypotheses.size() <= 100);
    double sum = 0;
    double of_the_likely = 0;
    for (std::size_t i = 0; i < thin.hypotheses.size(); ++i) {
        sum += thin.probability[i];
        if (thin.hypotheses[i] < 10) of_the_likely += thin.probability[i];
    }
    CHECK(sum == Approx(1).epsilon(0.02));
    CHECK(of_the_likely == Approx(0.5).epsilon(0.05));
}
