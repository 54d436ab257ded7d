#include "ui/view/diagram/crossings.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <limits>
#include <numeric>
#include <random>
#include <string>
#include <vector>

#include "tests/support/circuit_text.h"
#include "tests/support/sanitized.h"
#include "tests/view/diagram/shipped.h"
#include "ui/view/diagram/emit.h"
#include "ui/view/diagram/layout.h"

namespace halfsplit {

using namespace test;
using namespace view::diagram;

namespace {

Diagram lines(const std::vector<WireLine>& wires) {
    Diagram diagram;
    diagram.wires = wires;
    return diagram;
}

/// Rows as the longest path has them, in each the author's order, one beside the other.
int crossings_as_they_come(const model::Circuit& circuit) {
    const Selection all = everything(circuit);
    const Heights heights(circuit, all);
    const Sheet sheet = sheet_of(circuit, all, heights);
    Grid grid = grid_of(sheet, rank(circuit, sheet, heights));
    for (const auto& row : grid.rows) {
        int x = 0;
        for (const int item : row) {
            grid.items[static_cast<std::size_t>(item)].x = x;
            x += grid.items[static_cast<std::size_t>(item)].width;
        }
    }
    return crossings(drawn(std::move(grid), circuit));
}

/// Three fuses, four lamps on one of them each and on one of two grounds, drawn in rows and columns as told.
struct SmallCircuit {
    std::vector<int> fuse_of_lamp;
    std::vector<int> ground_of_lamp;

    model::Circuit read(const std::vector<int>& fuses, const std::vector<int>& lamps,
                        const std::vector<int>& grounds) const {
        std::string parts = "<battery id='G1'/><ground-point id='E9'/>";
        std::string harness = wire("G1.-", "E9");
        const auto hint = [](const std::vector<int>& columns, std::size_t index, int row) {
            return columns.empty()
                       ? std::string()
                       : " at='" + std::to_string(2 + columns[index]) + " " + std::to_string(row) + "'";
        };
        for (std::size_t i = 0; i < 3; ++i) {
            parts += "<fuse id='F" + std::to_string(i) + "' rating-a='5'" + hint(fuses, i, 2) + "/>";
            harness += wire("G1.+", "F" + std::to_string(i) + ".1");
        }
        for (std::size_t i = 0; i < fuse_of_lamp.size(); ++i) {
            const std::string lamp = "P" + std::to_string(i);
            parts += "<lamp id='" + lamp + "' rated-w='5'" + hint(lamps, i, 3) + "/>";
            harness += wire("F" + std::to_string(fuse_of_lamp[i]) + ".2", lamp + ".1") +
                       wire(lamp + ".2", "E" + std::to_string(ground_of_lamp[i]));
        }
        for (std::size_t i = 0; i < 2; ++i)
            parts += "<ground-point id='E" + std::to_string(i) + "'" + hint(grounds, i, 4) + "/>";
        return circuit_of(parts, harness);
    }

    std::string wire(const std::string& from, const std::string& to) const {
        return "<wire id='W" + std::to_string(count++) + "' from='" + from + "' to='" + to +
               "' area-mm2='1' length-m='1'/>";
    }
    mutable int count = 1;
};

/// The least of all orders of fuses, lamps and grounds.
int least_crossings(const SmallCircuit& small) {
    int least = std::numeric_limits<int>::max();
    std::vector<int> fuses{0, 1, 2};
    do {
        std::vector<int> lamps{0, 1, 2, 3};
        do {
            for (const std::vector<int>& grounds : {std::vector<int>{0, 2}, std::vector<int>{2, 0}})
                least = std::min(least, crossings(lay_out(small.read(fuses, lamps, grounds))));
        } while (std::ranges::next_permutation(lamps).found);
    } while (std::ranges::next_permutation(fuses).found);
    return least;
}

}  // namespace

TEST_CASE("Lines that cross are counted, joined ones and those from one pin once or not at all") {
    const WireLine level{"W1", "A.1", "B.1", "", "", {{0, 10}, {40, 10}}};
    const WireLine upright{"W2", "C.1", "D.1", "", "", {{20, 0}, {20, 30}}};
    CHECK(crossings(lines({level, upright})) == 1);
    // The same way as far as a dot at (20, 5), and then two ways: the first crossing counts once.
    const WireLine twin{"W3", "C.1", "E.1", "", "", {{20, 0}, {20, 20}, {30, 20}}};
    CHECK(crossings(lines({level, upright, twin})) == 1);
    const WireLine joined{"W4", "A.1", "D.1", "", "", {{20, 0}, {20, 30}}};
    CHECK(crossings(lines({level, joined})) == 0);
    const WireLine ends_on_it{"W5", "C.2", "D.2", "", "", {{20, 10}, {20, 30}}};
    CHECK(crossings(lines({level, ends_on_it})) == 0);
}

TEST_CASE("No shipped circuit is drawn with more crossings than its parts as they come") {
    for (const std::string& path : shipped_circuits()) {
        const model::Circuit circuit = circuit_file(path);
        if (circuit.parts.size() > 150) continue;  // drawn by the page
        INFO(path);
        CHECK(crossings(lay_out(circuit)) <= crossings_as_they_come(circuit));
    }
}

// Against brute force: every order of the columns of a small circuit. Short lines count too, so now and then
// one crossing more is worth it.
TEST_CASE("Small circuits are drawn with hardly a crossing more than the best order of columns has") {
    std::mt19937 random(5);
    int more = 0;
    for (int time = 0; time < (test::kSanitized ? 1 : 6); ++time) {
        SmallCircuit small;
        for (int lamp = 0; lamp < 4; ++lamp) {
            small.fuse_of_lamp.push_back(static_cast<int>(random() % 3));
            small.ground_of_lamp.push_back(static_cast<int>(random() % 2));
        }
        INFO("circuit " << time);
        const int own = crossings(lay_out(small.read({}, {}, {})));
        const int least = least_crossings(small);
        CHECK(own <= least + 1);
        more += std::max(0, own - least);
    }
    CHECK(more <= 1);
}

}  // namespace halfsplit
