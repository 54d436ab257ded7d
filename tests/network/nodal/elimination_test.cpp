#include <catch2/catch.hpp>

#include <klu.h>

#include <Eigen/Sparse>
#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/network/nodal/elimination.h"
#include "engine/network/nodal/inverse_rows.h"
#include "engine/network/nodal/islands.h"
#include "tests/support/random_network.h"

namespace {

using namespace halfsplit::network;
using halfsplit::at;
using namespace halfsplit::test;

/// A random network as an elimination and, for other solvers, as a matrix with its right side.
struct Problem {
    explicit Problem(const RandomNetwork& network, double leakage_s, int targets_per_entry = kTargetsPerEntry)
        : elimination(network.node_count, links_of(network), targets_per_entry),
          matrix(network.node_count, network.node_count),
          right(Eigen::VectorXd::Zero(network.node_count)) {
        std::vector<Eigen::Triplet<double>> entries;
        for (int node = 0; node < network.node_count; ++node) {
            add(elimination.ground_slot(node), {leakage_s, 0});
            entries.emplace_back(node, node, leakage_s);
        }
        for (const Branch& branch : network.branches) stamp(branch, entries);
        matrix.setFromTriplets(entries.begin(), entries.end());
        elimination.factor();
    }

    static std::vector<Link> links_of(const RandomNetwork& network) {
        std::vector<Link> links;
        for (const Branch& branch : network.branches)
            if (branch.from != branch.to && branch.from != kBody && branch.to != kBody)
                links.push_back({branch.from, branch.to});
        return links;
    }

    void add(int slot, Tie more) {
        const Tie now = elimination.get(slot);
        elimination.set(slot, {now.conductance + more.conductance, now.source + more.source});
    }

    void stamp(const Branch& branch, std::vector<Eigen::Triplet<double>>& entries) {
        if (!branch.conducts || branch.from == branch.to) return;
        const auto* source = std::get_if<halfsplit::model::Source>(&branch.law);
        const double ohm =
            source != nullptr ? source->ohm : std::get<halfsplit::model::Resistance>(branch.law).ohm;
        const double into_from = source != nullptr ? source->emf_v / ohm : 0;
        for (const auto& [node, other, into] : {std::tuple(branch.from, branch.to, into_from),
                                                std::tuple(branch.to, branch.from, -into_from)}) {
            if (node == kBody) continue;
            entries.emplace_back(node, node, 1 / ohm);
            if (other != kBody) entries.emplace_back(node, other, -1 / ohm);
            if (other == kBody) add(elimination.ground_slot(node), {1 / ohm, into});
            right[node] += into;
        }
        if (branch.from == kBody || branch.to == kBody) return;
        const bool from_first = elimination.column(branch.from) < elimination.column(branch.to);
        add(elimination.coupling_slot(branch.from, branch.to),
            {1 / ohm, from_first ? into_from : -into_from});
    }

    Eigen::VectorXd potentials() const {
        std::vector<double> by_column(at(elimination.pattern().columns()));
        elimination.solve(by_column);
        Eigen::VectorXd result(matrix.rows());
        for (int node = 0; node < result.size(); ++node)
            result[node] = by_column[at(elimination.column(node))];
        return result;
    }

    Elimination elimination;
    Eigen::SparseMatrix<double> matrix;
    Eigen::VectorXd right;
};

Eigen::VectorXd klu_solution(Problem& problem) {
    klu_common common;
    klu_defaults(&common);
    problem.matrix.makeCompressed();
    const int n = static_cast<int>(problem.matrix.rows());
    klu_symbolic* symbolic =
        klu_analyze(n, problem.matrix.outerIndexPtr(), problem.matrix.innerIndexPtr(), &common);
    klu_numeric* numeric = klu_factor(problem.matrix.outerIndexPtr(), problem.matrix.innerIndexPtr(),
                                      problem.matrix.valuePtr(), symbolic, &common);
    REQUIRE(numeric != nullptr);
    Eigen::VectorXd x = problem.right;
    klu_solve(symbolic, numeric, n, 1, x.data(), &common);
    klu_free_numeric(&numeric, &common);
    klu_free_symbolic(&symbolic, &common);
    return x;
}

RandomNetwork linear_wiring(std::uint64_t start, int nodes) {
    NetworkKind kind;
    kind.node_count = nodes;
    return body_electrics(start, kind);
}

}  // namespace

TEST_CASE("Elimination agrees with Eigen's LDLT and with KLU", "[elimination]") {
    // With 1e-4 S of leakage the assembled matrix is well enough conditioned for ordinary methods to serve as
    // judges.
    for (std::uint64_t start = 0; start < 60; ++start) {
        const int nodes = 2 + static_cast<int>(start) * 12;
        const RandomNetwork network =
            start % 2 == 0 ? linear_wiring(start, nodes) : random_graph(start, nodes, nodes, 4);
        Problem problem(network, 1e-4);
        const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> ldlt(problem.matrix);
        REQUIRE(ldlt.info() == Eigen::Success);
        const Eigen::VectorXd own = problem.potentials();
        CHECK((own - Eigen::VectorXd(ldlt.solve(problem.right))).lpNorm<Eigen::Infinity>() < 1e-7);
        CHECK((own - klu_solution(problem)).lpNorm<Eigen::Infinity>() < 1e-7);
    }
}

TEST_CASE("Injected currents give the columns of the inverse matrix", "[elimination]") {
    Problem problem(linear_wiring(3, 300), 1e-3);
    const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> ldlt(problem.matrix);
    for (int node = 0; node < 300; node += 17) {
        std::vector<double> value(300, 0);
        value[at(problem.elimination.column(node))] = 1;
        problem.elimination.solve_injected(value);
        const Eigen::VectorXd column = ldlt.solve(Eigen::VectorXd(Eigen::VectorXd::Unit(300, node)));
        for (int other = 0; other < 300; ++other)
            CHECK(value[at(problem.elimination.column(other))] == Approx(column[other]).epsilon(1e-9));
    }
}

TEST_CASE("Updating the path of a change gives what eliminating anew gives, to the bit", "[elimination]") {
    for (const bool table : {true, false}) {
        Problem problem(linear_wiring(5, 2000), 1e-9, table ? kTargetsPerEntry : 0);
        REQUIRE(problem.elimination.pattern().has_targets == table);
        REQUIRE_FALSE(problem.elimination.pattern().shares.empty());
        Random random(1);
        for (int i = 0; i < 300; ++i) {
            for (int k = random.below(3); k >= 0; --k) {
                const int slot = random.below(problem.elimination.slots());
                const bool coupling = slot < problem.elimination.pattern().entries();
                problem.elimination.set(slot,
                                        {random.chance(0.3) && coupling ? 0 : random.log_uniform(1e-9, 1e3),
                                         random.chance(0.3) ? random.uniform(-100, 100) : 0});
            }
            problem.elimination.update();
            const Eigen::VectorXd updated = problem.potentials();
            problem.elimination.factor();
            REQUIRE(updated == problem.potentials());
        }
    }
}

// The entries against solving for one ampere, column by column.
TEST_CASE("Rows of the inverse are what an ampere into each column gives", "[elimination]") {
    for (std::uint64_t start = 0; start < 12; ++start) {
        RandomNetwork network = start % 2 == 0 ? linear_wiring(start, 400) : random_graph(start, 90, 20, 6);
        add_faults(start, 9, network);
        const Problem problem(network, 1e-9);
        std::vector<int> columns;
        for (int node = 0; node < network.node_count; node += 7)
            columns.push_back(problem.elimination.column(node));
        std::vector<std::vector<double>> judge;
        for (const int column : columns) {
            judge.emplace_back(at(network.node_count), 0);
            judge.back()[at(column)] = 1;
            problem.elimination.solve_injected(judge.back());
        }
        std::vector<int> heard;
        InverseRows rows(problem.elimination, columns);
        rows.walk([&](int column) {
            heard.push_back(column);
            for (std::size_t k = 0; k < columns.size(); ++k)
                REQUIRE(rows.row(column)[k] == Approx(judge[k][at(column)]).epsilon(1e-11));
            const EliminationPattern& pattern = problem.elimination.pattern();
            for (int e = pattern.start[at(column)]; e < pattern.start[at(column) + 1]; ++e)
                REQUIRE(rows.row(pattern.row[at(e)])[0] ==
                        Approx(judge[0][at(pattern.row[at(e)])]).epsilon(1e-11));
        });
        std::ranges::sort(heard);
        REQUIRE(std::ranges::adjacent_find(heard) == heard.end());
        REQUIRE(static_cast<int>(heard.size()) == network.node_count);
    }
}

TEST_CASE("A mesh gives the same with and without the table of targets", "[elimination]") {
    Problem with_table(grid(2, 60), 1e-9, 1000);
    Problem without_table(grid(2, 60), 1e-9, 0);
    REQUIRE(with_table.elimination.pattern().has_targets);
    REQUIRE_FALSE(without_table.elimination.pattern().has_targets);
    CHECK(with_table.potentials() == without_table.potentials());
    const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> ldlt(with_table.matrix);
    const Eigen::VectorXd judge = ldlt.solve(with_table.right);
    CHECK((with_table.potentials() - judge).lpNorm<Eigen::Infinity>() < 1e-9);
}

TEST_CASE("Without leakage the zero pivots are the islands, one for one", "[elimination]") {
    for (std::uint64_t start = 0; start < 100; ++start) {
        const int nodes = 10 + static_cast<int>(start) * 10;
        RandomNetwork network =
            start % 2 == 0 ? linear_wiring(start, nodes) : random_graph(start, nodes, nodes / 5, 18);
        add_faults(start, nodes / 10, network);
        const Problem problem(network, 0);
        const std::vector<int> island = islands(nodes, network.branches);
        std::vector<int> pivot_of_island(at(nodes), 0);
        for (int node = 0; node < nodes; ++node)
            for (const int column : problem.elimination.zero_pivots())
                if (problem.elimination.column(node) == column) {
                    REQUIRE(island[at(node)] != kBody);
                    ++pivot_of_island[at(island[at(node)])];
                }
        const int count = *std::max_element(island.begin(), island.end()) + 1;
        for (int i = 0; i < count; ++i) CHECK(pivot_of_island[at(i)] == 1);
        CHECK(problem.potentials().allFinite());
    }
}
