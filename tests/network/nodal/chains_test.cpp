#include "engine/network/nodal/chains.h"

#include <random>

#include <catch2/catch.hpp>

#include "engine/network/nodal/solver.h"

using namespace halfsplit::network;
namespace model = halfsplit::model;

namespace {

double potential(const Chains& chains, const Solution& solution, int node) {
    const auto of = [&](int left) {
        return left == kBody ? 0.0 : solution.potential_v[static_cast<std::size_t>(left)];
    };
    const Chains::Spot& spot = chains.spot(node);
    return of(spot.from) + spot.share * (of(spot.to) - of(spot.from));
}

double current(const Chains& chains, const Solution& solution, int branch) {
    const Chains::Place place = chains.place(branch);
    return place.sign * solution.current_a[static_cast<std::size_t>(place.branch)];
}

Solution solved(int nodes, const std::vector<Branch>& branches) {
    auto solution = Solver(nodes, branches).solve();
    REQUIRE(solution);
    return *solution;
}

std::vector<char> resistances(const std::vector<Branch>& branches) {
    std::vector<char> result;
    for (const Branch& branch : branches)
        result.push_back(std::holds_alternative<model::Resistance>(branch.law) ? 1 : 0);
    return result;
}

/// Hubs joined to each other, to the body and to sources by rows of resistances that point either way.
struct Meadow {
    int nodes = 0;
    std::vector<Branch> branches;
};

Meadow meadow(std::mt19937& random) {
    const auto below = [&](int end) { return std::uniform_int_distribution<int>(0, end - 1)(random); };
    const auto ohm = [&] { return std::uniform_real_distribution<double>(1e-5, 1e-2)(random); };
    constexpr int kHubs = 8;
    Meadow result{kHubs, {}};
    result.branches.push_back({0, kBody, model::Source{12, 1e-5}, true});
    result.branches.push_back({1, kBody, model::Source{24, 2e-5}, true});
    for (int row = 0; row < 24; ++row) {
        int near = below(kHubs);
        const int end = below(5) == 0 ? kBody : below(kHubs);
        for (int links = 1 + below(5); links > 0; --links) {
            const int far = links == 1 ? end : result.nodes++;
            if (near != far)
                result.branches.push_back(below(2) == 0 ? Branch{near, far, model::Resistance{ohm()}, true}
                                                        : Branch{far, near, model::Resistance{ohm()}, true});
            near = far;
        }
    }
    return result;
}

/// The resistances are so low that what leaks by the inner nodes, a microampere in all, moves nothing by more
/// than the margins. A node between two breaks is driven by nothing: what it reads says nothing.
void require_same(const Meadow& whole, const Chains& chains) {
    Solver solver(whole.nodes, whole.branches);
    const auto expected = solver.solve();
    REQUIRE(expected);
    const Solution left = solved(chains.node_count(), chains.branches());
    std::vector<char> floats(static_cast<std::size_t>(whole.nodes), 0);
    for (const int node : solver.floating_nodes()) floats[static_cast<std::size_t>(node)] = 1;
    for (int node = 0; node < whole.nodes; ++node)
        if (floats[static_cast<std::size_t>(node)] == 0)
            REQUIRE(potential(chains, left, node) ==
                    Approx(expected->potential_v[static_cast<std::size_t>(node)]).margin(1e-8).epsilon(0));
    for (std::size_t k = 0; k < whole.branches.size(); ++k)
        REQUIRE(current(chains, left, static_cast<int>(k)) ==
                Approx(expected->current_a[k]).margin(1e-5).epsilon(0));
}

}  // namespace

TEST_CASE("Resistances in series become one, and the divider between them reads as worked by hand") {
    // 12 V over 1, 2 and 3 ohm in series: 2 A, 10 V and 6 V between them (Ohm's law).
    std::vector<Branch> branches{{0, kBody, model::Source{12, 1e-6}, true},
                                 {0, 1, model::Resistance{1}, true},
                                 {2, 1, model::Resistance{2}, true},
                                 {2, kBody, model::Resistance{3}, true}};
    Chains chains(3, branches, resistances(branches));
    CHECK(chains.node_count() == 1);
    CHECK(chains.branches().size() == 2);
    const Solution solution = solved(chains.node_count(), chains.branches());
    CHECK(potential(chains, solution, 0) == Approx(12).epsilon(1e-5));
    CHECK(potential(chains, solution, 1) == Approx(10).epsilon(1e-5));
    CHECK(potential(chains, solution, 2) == Approx(6).epsilon(1e-5));
    CHECK(current(chains, solution, 1) == Approx(2).epsilon(1e-5));
    CHECK(current(chains, solution, 2) == Approx(-2).epsilon(1e-5));

    chains.set_conducts(2, false);
    const Solution broken = solved(chains.node_count(), chains.branches());
    CHECK(potential(chains, broken, 1) == Approx(12).epsilon(1e-9));
    CHECK(potential(chains, broken, 2) == Approx(0).margin(1e-9));
    CHECK(current(chains, broken, 1) == 0);
}

TEST_CASE("A ring of resistances without an end, and a row that returns, stay as they are") {
    const std::vector<Branch> ring{{0, 1, model::Resistance{1}, true},
                                   {1, 2, model::Resistance{1}, true},
                                   {2, 0, model::Resistance{1}, true}};
    const Chains chains(3, ring, resistances(ring));
    CHECK(chains.node_count() == 3);
    CHECK(chains.branches().size() == 3);

    std::vector<Branch> returning = ring;
    returning.push_back({0, kBody, model::Source{12, 1}, true});
    const Chains kept(3, returning, resistances(returning));
    CHECK(kept.node_count() == 3);
    CHECK(kept.branches().size() == 4);
}

TEST_CASE(
    "Random networks with rows read the same whole and with the rows joined, whatever opens and changes") {
    std::mt19937 random(20);
    for (int trial = 0; trial < 40; ++trial) {
        Meadow whole = meadow(random);
        Chains chains(whole.nodes, whole.branches, resistances(whole.branches));
        REQUIRE(chains.node_count() < whole.nodes);
        require_same(whole, chains);
        for (int change = 0; change < 6; ++change) {
            const auto index =
                std::uniform_int_distribution<std::size_t>(2, whole.branches.size() - 1)(random);
            Branch& branch = whole.branches[index];
            branch.conducts = !branch.conducts;
            branch.law = model::Resistance{std::uniform_real_distribution<double>(1e-5, 1e-2)(random)};
            chains.set_conducts(static_cast<int>(index), branch.conducts);
            chains.set_law(static_cast<int>(index), branch.law);
            require_same(whole, chains);
        }
    }
}
