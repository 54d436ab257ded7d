#include <catch2/catch.hpp>

#include <random>
#include <set>

#include "engine/tracing/cut_tree.h"
#include "engine/tracing/dependence.h"
#include "engine/tracing/trace.h"
#include "tests/support/sanitized.h"
#include "tests/tracing/two_lamps.h"

namespace halfsplit::tracing {

using test::Bench;
using test::point_name;
using test::two_lamps;

namespace {

/// A battery, some points on a few ground points, wires at random (some torn), diodes, and lamps.
Bench random_bench(std::mt19937& random, bool with_diodes) {
    const auto below = [&](int limit) { return static_cast<int>(random() % static_cast<unsigned>(limit)); };
    const int points = 5 + below(6);
    Bench bench;
    bench.battery();
    for (int i = 0; i < points; ++i) bench.part(point_name(i), "X");
    bench.wire("feed", "G1.+", point_name(below(points)));
    for (int i = 0; i < 1 + below(2); ++i) {
        bench.ground_point("E" + std::to_string(10 + i));
        bench.wire("ground" + std::to_string(i), point_name(below(points)), "E" + std::to_string(10 + i));
    }
    for (int i = 0; i < points + below(4); ++i) {
        bench.wire("W" + std::to_string(100 + i), point_name(below(points)), point_name(below(points)));
        if (below(8) == 0) bench.open("W" + std::to_string(100 + i));
    }
    for (int i = 0; i < (with_diodes ? 1 + below(3) : 0); ++i) {
        const std::string id = "R" + std::to_string(i);
        bench.part(id, "R", {"A", "K"});
        bench.element(id, "junction", "A", "K", model::Junction{1e-12, 0.05});
        bench.wire(id + "A", point_name(below(points)), id + ".A");
        bench.wire(id + "K", id + ".K", point_name(below(points)));
    }
    for (int i = 0; i < 5; ++i) {
        const std::string id = "H" + std::to_string(i);
        bench.lamp(id);
        bench.wire(id + "f", id + ".1", point_name(below(points)));
        bench.wire(id + "g", id + ".2", point_name(below(points)));
    }
    return bench;
}

/// What is reached from some nodes, by the definition: again and again through every branch that is left,
/// until nothing is added. `with_current`: from supplies, and never on through the body or a negative pole.
std::set<int> reached(const Bench& bench, std::set<int> nodes, bool with_current, int without_branch,
                      int without_node) {
    const std::set<int> grounds{network::kBody, bench.node("G1.-")};
    nodes.erase(without_node);
    for (bool grew = true; grew;) {
        grew = false;
        for (std::size_t i = 0; i < bench.network.branches.size(); ++i) {
            const network::NetworkBranch& each = bench.network.branches[i];
            const bool is_diode = std::holds_alternative<model::Junction>(each.electrical.law);
            const bool is_wire = std::holds_alternative<model::Resistance>(each.electrical.law);
            if (static_cast<int>(i) == without_branch || !each.electrical.conducts) continue;
            if (!is_diode && !is_wire) continue;
            const auto go = [&](int from, int to) {
                if (!nodes.contains(from) || nodes.contains(to) || to == without_node) return;
                if (with_current && (grounds.contains(from) || grounds.contains(to))) return;
                nodes.insert(to);
                grew = true;
            };
            if (!is_diode || with_current) go(each.electrical.from, each.electrical.to);
            if (!is_diode || !with_current) go(each.electrical.to, each.electrical.from);
        }
    }
    return nodes;
}

std::set<std::string> working(const Bench& bench, int without_branch, int without_node) {
    const std::set<int> fed = reached(bench, {bench.node("G1.+")}, true, without_branch, without_node);
    const std::set<int> grounded =
        reached(bench, {network::kBody, bench.node("G1.-")}, false, without_branch, without_node);
    std::set<std::string> lamps;
    for (int i = 0; i < 5; ++i) {
        const std::string id = "H" + std::to_string(i);
        const int one = bench.node(id + ".1");
        const int two = bench.node(id + ".2");
        if ((fed.contains(one) && grounded.contains(two)) || (fed.contains(two) && grounded.contains(one)))
            lamps.insert(id);
    }
    return lamps;
}

std::set<std::string> lost_by_definition(const Bench& bench, int without_branch, int without_node) {
    std::set<std::string> lost = working(bench, -1, -2);
    for (const std::string& still : working(bench, without_branch, without_node)) lost.erase(still);
    return lost;
}

std::set<std::string> loads_of(const std::vector<LostLoad>& all) {
    std::set<std::string> names;
    for (const LostLoad& lost : all) names.insert(lost.load);
    return names;
}

}  // namespace

TEST_CASE("On random networks, for every element, exactly the loads are lost that brute force loses") {
    const bool with_diodes = GENERATE(false, true);
    std::mt19937 random(with_diodes ? 11 : 5);
    constexpr int kRounds = test::kSanitized ? 30 : 150;
    int losses = 0;
    for (int round = 0; round < kRounds; ++round) {
        const Bench bench = random_bench(random, with_diodes);
        const Wiring wiring = bench.wiring();
        const std::vector<LoadGroup> loads = load_groups(wiring);
        const Dependence dependence(wiring, loads);
        for (int branch = 0; branch < wiring.branch_count(); ++branch) {
            if (wiring.role(branch) == Role::load || wiring.role(branch) == Role::source) continue;
            INFO("round " << round << ", without " << wiring.branch(branch).name);
            const std::set<std::string> expected = lost_by_definition(bench, branch, -2);
            CHECK(loads_of(dependence.lost_if_opens(branch)) == expected);
            CHECK(loads_of(lost_without(wiring, loads, {branch})) == expected);
            losses += static_cast<int>(expected.size());
        }
        for (int node = 0; node < bench.network.node_count; ++node) {
            if (wiring.grounds()[static_cast<std::size_t>(node)]) continue;
            INFO("round " << round << ", " << bench.network.node_names[static_cast<std::size_t>(node)]
                          << " apart");
            CHECK(loads_of(dependence.lost_if_parts(node)) == lost_by_definition(bench, -1, node));
        }
    }
    CHECK(losses > 3 * kRounds);
}

TEST_CASE("On random graphs the cut tree names exactly the vertices that separate, one-way edges or not") {
    const bool one_way = GENERATE(false, true);
    std::mt19937 random(one_way ? 23 : 3);
    const auto is_reached = [](int count, const std::vector<CutEdge>& edges, int target, int without) {
        std::set<int> nodes{0};
        for (int i = 0; i < count; ++i)
            for (const CutEdge& edge : edges) {
                if (edge.from == without || edge.to == without) continue;
                if (nodes.contains(edge.from)) nodes.insert(edge.to);
                if (!edge.one_way && nodes.contains(edge.to)) nodes.insert(edge.from);
            }
        return nodes.contains(target);
    };
    for (int round = 0; round < 300; ++round) {
        const int count = 3 + static_cast<int>(random() % 7);
        std::vector<CutEdge> edges;
        for (int i = 0; i < count + static_cast<int>(random() % 4); ++i) {
            const int from = static_cast<int>(random() % static_cast<unsigned>(count));
            const int to = static_cast<int>(random() % static_cast<unsigned>(count));
            if (from != to) edges.push_back({from, to, one_way && random() % 3 == 0});
        }
        const CutTree tree(count, edges, 0);
        for (int vertex = 1; vertex < count; ++vertex) {
            REQUIRE(tree.is_reached(vertex) == is_reached(count, edges, vertex, -1));
            const std::vector<int> cuts = tree.cuts_to(vertex);
            for (int other = 1; other < count; ++other) {
                if (other == vertex || !tree.is_reached(vertex)) continue;
                const bool separates = !is_reached(count, edges, vertex, other);
                CHECK((std::ranges::find(cuts, other) != cuts.end()) == separates);
            }
        }
    }
}

TEST_CASE("The shared ground takes both lamps with it, the fuse takes all") {
    Bench bench = two_lamps();
    bench.put("S1", 1);
    bench.put("S2", 1);
    const auto lost = [&](const char* name) {
        return trace(bench.circuit, bench.network, bench.point, name)->lost_if_open;
    };
    REQUIRE(loads_of(lost("W9")) == std::set<std::string>{"H1", "H2"});
    CHECK(lost("W9").front().loses_ground);
    CHECK_FALSE(lost("W9").front().loses_feed);
    CHECK(loads_of(lost("F1")) == std::set<std::string>{"H1", "H2", "H3"});
    CHECK(lost("F1").front().loses_feed);
    CHECK(loads_of(lost("J9")) == std::set<std::string>{"H1", "H2"});
    CHECK(loads_of(lost("S2")) == std::set<std::string>{"H2", "H3"});
    CHECK(loads_of(lost("E1")).empty());  // the body is the reference: what opens there is the battery's side
}

TEST_CASE("What is off has nothing to lose") {
    const Bench bench = two_lamps();
    CHECK(trace(bench.circuit, bench.network, bench.point, "F1")->lost_if_open.empty());
}

TEST_CASE("A relay that loses its coil's feed takes along what it switches") {
    Bench bench;
    bench.battery();
    bench.ground_point("E2");
    bench.fuse("F1");
    bench.part("K1", "K", {"30", "85", "86", "87"});
    bench.element("K1", "coil", "86", "85", model::Resistance{85});
    bench.contact("K1", "30-87", "30", "87", {1});
    bench.lamp("H1");
    bench.part("J9", "X");
    bench.wire("W1", "G1.+", "F1.1");
    bench.wire("W2", "F1.2", "K1.86");
    bench.wire("W3", "K1.85", "J9");
    bench.wire("W4", "G1.+", "K1.30");
    bench.wire("W5", "K1.87", "H1.1");
    bench.wire("W6", "H1.2", "J9");
    bench.wire("W7", "J9", "E2");
    bench.put("K1", 1);
    network::NetworkTrigger trigger;
    trigger.part = bench.circuit.find_pin("K1.30")->part;
    trigger.trigger = {model::Observed::element_voltage_v, "coil", 7, 3, 1, 0};
    trigger.branches = {bench.branch("K1.coil")};
    bench.network.triggers.push_back(trigger);
    const auto found = trace(bench.circuit, bench.network, bench.point, "F1");
    REQUIRE(found);
    CHECK(loads_of(found->lost_if_open) == std::set<std::string>{"K1.coil"});
    REQUIRE(loads_of(found->lost_then) == std::set<std::string>{"H1"});
    CHECK(found->lost_then.front().because_of == "K1");
}

}  // namespace halfsplit::tracing
