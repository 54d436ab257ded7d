// Direct-current circuits with published answers: T. R. Kuphaldt, Lessons in Electric Circuits, volume I
// (DC), Design Science License, copy of commit 12a44f4b. Beside each test stand the chapter and the figure.
// The answers are printed to four or five digits, so that is what they are compared to.

#include <catch2/catch.hpp>

#include "engine/network/nodal/solver.h"

namespace {

using namespace halfsplit::model;
using halfsplit::network::Branch;
using halfsplit::network::kBody;
using halfsplit::network::Solution;
using halfsplit::network::Solver;

Solution solved_of(int node_count, const std::vector<Branch>& branches) {
    auto solution = Solver(node_count, branches).solve();
    REQUIRE(solution.has_value());
    return *std::move(solution);
}

/// A source whose internal resistance is too small to show in the printed digits.
Source ideal(double emf_v) {
    return {emf_v, 1e-6};
}

/// Equal to what is printed, give or take half of its last digit.
Approx printed(double value, double last_digit) {
    return Approx(value).margin(0.51 * last_digit).epsilon(0);
}

}  // namespace

TEST_CASE("A voltage divider of three resistances shares out the voltage in proportion", "[textbook]") {
    // Chapter 6, figures 00106 and 10099: 45 V over 5k, 10k, 7.5k: 10, 20, 15 V, 2 mA; at 180 V the first
    // drops 40 V.
    for (const double scale : {1.0, 4.0}) {
        const Solution s = solved_of(3, {{0, kBody, ideal(45 * scale)},
                                         {0, 1, Resistance{5e3}},
                                         {1, 2, Resistance{10e3}},
                                         {2, kBody, Resistance{7.5e3}}});
        CHECK(s.potential_v[0] - s.potential_v[1] == printed(10 * scale, 1e-2));
        CHECK(s.potential_v[1] - s.potential_v[2] == printed(20 * scale, 1e-2));
        CHECK(s.potential_v[2] == printed(15 * scale, 1e-2));
        CHECK(s.current_a[3] == printed(2e-3 * scale, 1e-6));
        CHECK(s.iterations == 1);
    }
}

TEST_CASE("Resistances in parallel each take their own current", "[textbook]") {
    // Chapter 6, figure 10116: 6 V over 1k, 3k, 2k: 6, 2, 3 mA, 11 mA together.
    const Solution s = solved_of(1, {{0, kBody, ideal(6)},
                                     {0, kBody, Resistance{1e3}},
                                     {0, kBody, Resistance{3e3}},
                                     {0, kBody, Resistance{2e3}}});
    CHECK(s.current_a[1] == printed(6e-3, 1e-6));
    CHECK(s.current_a[2] == printed(2e-3, 1e-6));
    CHECK(s.current_a[3] == printed(3e-3, 1e-6));
    CHECK(-s.current_a[0] == printed(11e-3, 1e-6));
}

TEST_CASE("A series-parallel combination divides voltage and current", "[textbook]") {
    // Chapter 7, figure 00123: 24 V over (100 || 250) + (350 || 200) ohm.
    const Solution s = solved_of(2, {{0, kBody, ideal(24)},
                                     {0, 1, Resistance{100}},
                                     {0, 1, Resistance{250}},
                                     {1, kBody, Resistance{350}},
                                     {1, kBody, Resistance{200}}});
    CHECK(s.potential_v[0] - s.potential_v[1] == printed(8.627, 1e-3));
    CHECK(s.potential_v[1] == printed(15.37, 1e-2));
    CHECK(s.current_a[1] == printed(86.27e-3, 1e-5));
    CHECK(s.current_a[2] == printed(34.51e-3, 1e-5));
    CHECK(s.current_a[3] == printed(43.92e-3, 1e-5));
    CHECK(s.current_a[4] == printed(76.86e-3, 1e-5));
    CHECK(-s.current_a[0] == printed(120.78e-3, 1e-5));
}

TEST_CASE("Of two batteries the stronger one charges the other", "[textbook]") {
    // Chapter 10, figure 00209: 28 V behind 4 ohm and 7 V behind 1 ohm meet at 2 ohm: 8 V; 5, 4, 1 A.
    const Solution s =
        solved_of(1, {{0, kBody, Source{28, 4}}, {0, kBody, Resistance{2}}, {0, kBody, Source{7, 1}}});
    CHECK(s.potential_v[0] == printed(8, 1e-6));
    CHECK(s.current_a[0] == printed(-5, 1e-6));
    CHECK(s.current_a[1] == printed(4, 1e-6));
    CHECK(s.current_a[2] == printed(1, 1e-6));
}

TEST_CASE("An unbalanced bridge carries current across", "[textbook]") {
    // Chapter 10, figures 00485 to 00490.
    const Solution s = solved_of(3, {{0, kBody, ideal(24)},
                                     {0, 1, Resistance{150}},
                                     {0, 2, Resistance{50}},
                                     {1, 2, Resistance{100}},
                                     {1, kBody, Resistance{300}},
                                     {2, kBody, Resistance{250}}});
    CHECK(s.potential_v[1] == printed(17.655, 1e-3));
    CHECK(s.potential_v[2] == printed(19.310, 1e-3));
    CHECK(-s.current_a[0] == printed(136.092e-3, 1e-6));
    CHECK(s.current_a[1] == printed(42.299e-3, 1e-6));
    CHECK(s.current_a[2] == printed(93.793e-3, 1e-6));
    CHECK(s.current_a[3] == printed(-16.552e-3, 1e-6));
    CHECK(s.current_a[4] == printed(58.851e-3, 1e-6));
    CHECK(s.current_a[5] == printed(77.241e-3, 1e-6));
}

TEST_CASE("A voltmeter loads a divider of high resistance", "[textbook]") {
    // Chapter 8, figures 00156 to 00158, every resistance a thousandth of the book's: 250 and 250 kohm, meter
    // 10 kohm. (The solver's own leakage, 1 Gohm a node, would be seen beside the book's 250 Mohm.) Printed:
    // 0.8889 V.
    std::vector<Branch> branches{{0, kBody, ideal(24)},
                                 {0, 1, Resistance{250e3}},
                                 {1, kBody, Resistance{250e3}},
                                 {1, kBody, Resistance{10e3}, false}};
    CHECK(solved_of(2, branches).potential_v[1] == printed(12, 1e-2));
    branches[3].conducts = true;
    const Solution loaded = solved_of(2, branches);
    CHECK(loaded.potential_v[1] == printed(0.8889, 1e-4));
    CHECK(loaded.potential_v[0] - loaded.potential_v[1] == printed(23.1111, 1e-4));
}

TEST_CASE("An ammeter's resistance lowers the current it reads", "[textbook]") {
    // Chapter 8, figures 00169 to 00171: 2 V over 3 ohm and 1.5 ohm, meter 0.5 ohm: 571.43 mA and 1 A.
    const Solution left = solved_of(2, {{0, kBody, ideal(2)},
                                        {0, 1, Resistance{0.5}},
                                        {1, kBody, Resistance{3}},
                                        {0, kBody, Resistance{1.5}}});
    CHECK(left.current_a[1] == printed(571.43e-3, 1e-5));
    CHECK(left.current_a[3] == printed(1.333, 1e-3));
    const Solution right = solved_of(2, {{0, kBody, ideal(2)},
                                         {0, kBody, Resistance{3}},
                                         {0, 1, Resistance{0.5}},
                                         {1, kBody, Resistance{1.5}}});
    CHECK(right.current_a[1] == printed(666.7e-3, 1e-4));
    CHECK(right.current_a[2] == printed(1, 1e-4));
}

TEST_CASE("A battery drops voltage inside and limits its short circuit", "[textbook]") {
    // Chapter 11, figure 00262: 10 V, 0.2 ohm inside, 1 ohm load: 8.333 A, 8.333 V; shorted 50 A.
    const Solution loaded = solved_of(1, {{0, kBody, Source{10, 0.2}}, {0, kBody, Resistance{1}}});
    CHECK(loaded.potential_v[0] == printed(8.333, 1e-3));
    CHECK(loaded.current_a[1] == printed(8.333, 1e-3));
    const Solution shorted = solved_of(1, {{0, kBody, Source{10, 0.2}}, {0, kBody, Resistance{1e-6}}});
    CHECK(shorted.current_a[1] == printed(50, 1e-3));
}

TEST_CASE("A series circuit with one part shorted or open", "[textbook]") {
    // Chapter 5, figures 00098 to 00100 and 10089 to 10091: 9 V over 100, 300, 50 ohm.
    Solver solver(3, std::vector<Branch>{{0, kBody, ideal(9)},
                                         {0, 1, Resistance{100}},
                                         {1, 2, Resistance{300}},
                                         {2, kBody, Resistance{50}}});
    const auto drops = [&](double first_v, double second_v, double third_v, double current_a) {
        const auto s = solver.solve();
        REQUIRE(s.has_value());
        CHECK(s->potential_v[0] - s->potential_v[1] == printed(first_v, 1e-3));
        CHECK(s->potential_v[1] - s->potential_v[2] == printed(second_v, 1e-3));
        CHECK(s->potential_v[2] == printed(third_v, 1e-3));
        CHECK(s->current_a[1] == printed(current_a, 1e-6));
    };
    drops(2, 6, 1, 20e-3);
    solver.set_law(2, Resistance{1e-6});
    drops(6, 0, 3, 60e-3);
    solver.set_law(2, Resistance{300});
    solver.set_conducts(2, false);
    drops(0, 9, 0, 0);
    solver.set_conducts(2, true);
    drops(2, 6, 1, 20e-3);
}

TEST_CASE("A parallel circuit with one branch open", "[textbook]") {
    // Chapter 5, figures 00101, 00102, 10092, 10093: 9 V over 90, 45, 180 ohm.
    std::vector<Branch> branches{{0, kBody, ideal(9)},
                                 {0, kBody, Resistance{90}},
                                 {0, kBody, Resistance{45}},
                                 {0, kBody, Resistance{180}}};
    const Solution healthy = solved_of(1, branches);
    CHECK(healthy.current_a[1] == printed(100e-3, 1e-6));
    CHECK(healthy.current_a[2] == printed(200e-3, 1e-6));
    CHECK(healthy.current_a[3] == printed(50e-3, 1e-6));
    CHECK(-healthy.current_a[0] == printed(350e-3, 1e-6));
    branches[2].conducts = false;
    const Solution faulty = solved_of(1, branches);
    CHECK(faulty.current_a[1] == printed(100e-3, 1e-6));
    CHECK(faulty.current_a[2] == 0);
    CHECK(-faulty.current_a[0] == printed(150e-3, 1e-6));
}

TEST_CASE("A regulating element holds its voltage against the load", "[textbook]") {
    // Volume III, chapter 3: 45 V, 1k, a 12.6 V zener diode, then a 500 ohm load: 32.4 V and 32.4 mA in the
    // 1k; the load takes 25.2 mA of it and leaves 7.2 mA. The conducting zener stands as a source of 12.6 V.
    std::vector<Branch> branches{{0, kBody, ideal(45)},
                                 {0, 1, Resistance{1e3}},
                                 {1, kBody, ideal(12.6)},
                                 {1, kBody, Resistance{500}, false}};
    CHECK(solved_of(2, branches).current_a[2] == printed(32.4e-3, 1e-4));
    branches[3].conducts = true;
    const Solution loaded = solved_of(2, branches);
    CHECK(loaded.potential_v[0] - loaded.potential_v[1] == printed(32.4, 1e-1));
    CHECK(loaded.current_a[3] == printed(25.2e-3, 1e-4));
    CHECK(loaded.current_a[2] == printed(7.2e-3, 1e-4));
}
