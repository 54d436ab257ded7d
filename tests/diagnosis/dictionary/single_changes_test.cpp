#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <vector>

#include "engine/base/index.h"
#include "engine/network/nodal/constants.h"
#include "engine/network/nodal/newton.h"
#include "engine/network/nodal/single_changes.h"
#include "tests/support/random_network.h"
#include "tests/support/sanitized.h"

using namespace halfsplit;
using network::Branch;
using network::kBody;
using network::SingleChange;
using network::Tie;

namespace {

/// A network of straight lines, solved.
struct Solved {
    Solved(int node_count, const std::vector<Branch>& branches) : assembly(node_count, branches) {
        network::Newton(branches, assembly).run();
        assembly.solve();
    }
    network::Assembly assembly;
};

std::vector<int> all_nodes(int count) {
    std::vector<int> nodes;
    for (int node = 0; node < count; ++node) nodes.push_back(node);
    return nodes;
}

/// Potentials of all nodes after each change.
std::vector<std::vector<double>> after_each(const network::SingleChanges& changes, std::size_t count,
                                            int nodes) {
    std::vector<std::vector<double>> potentials(count, std::vector<double>(at(nodes), std::nan("")));
    changes.observe(all_nodes(nodes),
                    [&](int change, std::size_t first, std::span<const double> potential_v) {
                        std::copy(potential_v.begin(), potential_v.end(),
                                  potentials[at(change)].begin() + static_cast<std::ptrdiff_t>(first));
                    });
    return potentials;
}

/// Opens and a further ohm for each branch, shorts to the body and to node 0 for each node.
std::vector<SingleChange> every_change(const test::RandomNetwork& network,
                                       const network::Assembly& assembly) {
    std::vector<SingleChange> changes;
    for (int k = 0; k < static_cast<int>(network.branches.size()); ++k) {
        const Tie line = assembly.line(k);
        if (line.conductance == 0) continue;
        changes.push_back({k, kBody, kBody, {}});
        const double share = 1 / (1 + line.conductance);
        changes.push_back({k, kBody, kBody, {line.conductance * share, line.source * share}});
    }
    for (int node = 1; node < network.node_count; ++node) {
        changes.push_back({-1, node, kBody, {1e3, 0}});
        changes.push_back({-1, node, 0, {1e3, 0}});
    }
    return changes;
}

/// The same by building the network with the change and solving it from nothing.
std::vector<double> solved_anew(const test::RandomNetwork& network, const network::Assembly& sound,
                                const SingleChange& change) {
    std::vector<Branch> branches = network.branches;
    if (change.branch < 0) branches.push_back({change.from, change.to, model::Resistance{1}, true});
    network::Assembly assembly(network.node_count, branches);
    for (int k = 0; k < sound.branches(); ++k) assembly.set(k, sound.line(k));
    assembly.set(change.branch < 0 ? sound.branches() : change.branch, change.line);
    const std::span<const double> potential = assembly.solve();
    std::vector<double> by_node;
    for (int node = 0; node < network.node_count; ++node)
        by_node.push_back(potential[at(assembly.column(node))]);
    return by_node;
}

double worst_of_all(const test::RandomNetwork& network, int every, int& doubted) {
    const Solved sound(network.node_count, network.branches);
    const std::vector<SingleChange> changes = every_change(network, sound.assembly);
    const network::SingleChanges quick(sound.assembly, changes);
    const auto potentials = after_each(quick, changes.size(), network.node_count);
    doubted += quick.doubted();
    double worst_v = 0;
    for (std::size_t i = 0; i < changes.size(); i += at(every)) {
        const std::vector<double> anew = solved_anew(network, sound.assembly, changes[i]);
        for (std::size_t node = 0; node < anew.size(); ++node) {
            const double off_v = std::abs(anew[node] - potentials[i][node]);
            worst_v = std::isnan(off_v) ? off_v : std::max(worst_v, off_v);
        }
    }
    return worst_v;
}

}  // namespace

// Solved by hand as fractions: 12 V, three equal resistances in series, three across. They are a milliohm
// here, so that the leakage of each node is 1e-12 of them.
TEST_CASE("The dictionary of a ladder has the fractions of the textbook, one change at a time") {
    constexpr double kOhm = 1e-3;
    const model::Law rung = model::Resistance{kOhm};
    const std::vector<Branch> ladder{{0, kBody, model::Source{12, 1e-15}, true},
                                     {0, 1, rung, true},       // S1
                                     {1, kBody, rung, true},   // P1
                                     {1, 2, rung, true},       // S2
                                     {2, kBody, rung, true},   // P2
                                     {2, 3, rung, true},       // S3
                                     {3, kBody, rung, true}};  // P3
    struct Row {
        int branch;
        bool open;
        std::array<double, 3> expected_v;
    };
    const std::vector<Row> rows{{1, true, {0, 0, 0}},
                                {1, false, {12, 24.0 / 5, 12.0 / 5}},
                                {2, true, {15.0 / 2, 3, 3.0 / 2}},
                                {2, false, {0, 0, 0}},
                                {3, true, {6, 0, 0}},
                                {3, false, {24.0 / 7, 24.0 / 7, 12.0 / 7}},
                                {4, true, {36.0 / 7, 24.0 / 7, 12.0 / 7}},
                                {4, false, {4, 0, 0}},
                                {5, true, {24.0 / 5, 12.0 / 5, 0}},
                                {5, false, {9.0 / 2, 3.0 / 2, 3.0 / 2}},
                                {6, true, {24.0 / 5, 12.0 / 5, 12.0 / 5}},
                                {6, false, {9.0 / 2, 3.0 / 2, 0}}};
    const Solved sound(4, ladder);
    const auto at_node = [&](int node) {
        return sound.assembly.potential()[at(sound.assembly.column(node))];
    };
    CHECK(std::abs(at_node(1) - 60.0 / 13) < 1e-9);
    CHECK(std::abs(at_node(2) - 24.0 / 13) < 1e-9);
    CHECK(std::abs(at_node(3) - 12.0 / 13) < 1e-9);
    std::vector<SingleChange> changes;
    for (const Row& row : rows) changes.push_back({row.branch, kBody, kBody, {row.open ? 0 : 1e14, 0}});
    const network::SingleChanges quick(sound.assembly, changes);
    const auto potentials = after_each(quick, changes.size(), 4);
    for (std::size_t i = 0; i < rows.size(); ++i)
        for (std::size_t k = 0; k < 3; ++k) {
            INFO("branch " << rows[i].branch << (rows[i].open ? " open" : " short") << ", V" << k + 1);
            CHECK(std::abs(potentials[i][k + 1] - rows[i].expected_v[k]) < 1e-9);
        }
}

// The reference is the network with the change, built and solved from nothing.
TEST_CASE("Every single change of wiring comes to what solving anew comes to") {
    int doubted = 0;
    test::NetworkKind kind;
    kind.node_count = 300;
    for (std::uint64_t start = 1; start <= 5; ++start)
        CHECK(worst_of_all(test::body_electrics(start, kind), 1, doubted) < 1e-9);
    CHECK(doubted > 0);
    // A wire that loses on its way to ground what it is left with, found by drawing.
    CHECK(worst_of_all(test::body_electrics(18, kind), 1, doubted) < 1e-9);
    kind.node_count = 5000;
    CHECK(worst_of_all(test::body_electrics(7, kind), test::kSanitized ? 1999 : 199, doubted) < 1e-9);
}

TEST_CASE("Every single change of any graph, islands and floating sources included, comes to the same") {
    int doubted = 0;
    for (std::uint64_t start = 1; start <= 20; ++start)
        CHECK(worst_of_all(test::random_graph(start, 60, 25, 6), 1, doubted) < 1e-9);
    CHECK(doubted > 0);
    // An island of microvolts that volts in floating sources leave, found by drawing.
    CHECK(worst_of_all(test::random_graph(1048, 40, 6, 6), 1, doubted) < 1e-9);
    for (std::uint64_t start = 1; start <= 300; ++start)
        CHECK(worst_of_all(test::random_graph(start, 30, static_cast<int>(start % 12), 6), 1, doubted) <
              1e-9);
}

// The entries against solving for one ampere, column by column.
TEST_CASE("The inverse has on its couplings what solving for an ampere gives") {
    for (std::uint64_t start = 1; start <= 10; ++start) {
        const test::RandomNetwork network = test::random_graph(start, 80, 40, 6);
        const Solved sound(network.node_count, network.branches);
        const network::Elimination& elimination = sound.assembly.elimination();
        std::vector<double> ohm(at(elimination.slots()));
        elimination.inverse_entries(ohm);
        const auto& pattern = elimination.pattern();
        std::vector<double> column(at(pattern.columns()));
        for (int p = 0; p < pattern.columns(); ++p) {
            std::fill(column.begin(), column.end(), 0);
            column[at(p)] = 1;
            elimination.solve_injected(column);
            CHECK(ohm[at(pattern.entries() + p)] == Approx(column[at(p)]).epsilon(1e-11));
            for (int e = pattern.start[at(p)]; e < pattern.start[at(p) + 1]; ++e)
                CHECK(ohm[at(e)] == Approx(column[at(pattern.row[at(e)])]).epsilon(1e-11));
        }
    }
}
