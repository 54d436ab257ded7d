#include "tests/benchmark/dictionary_comparison.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <functional>
#include <stdexcept>
#include <string>
#include <vector>

#include "engine/base/index.h"
#include "engine/network/nodal/constants.h"
#include "engine/network/nodal/newton.h"
#include "engine/network/nodal/single_changes.h"
#include "engine/network/nodal/solver.h"
#include "tests/support/ngspice.h"
#include "tests/support/ngspice_deck.h"
#include "tests/support/random_network.h"

namespace halfsplit::benchmark_of {

namespace {

using namespace halfsplit::network;
using test::RandomNetwork;

constexpr std::uint64_t kStart = 7;
constexpr int kRounds = 3;
constexpr int kAltersARound = 25;
constexpr int kPoints = 200;
constexpr double kShortSiemens = 1e3;
/// The nonlinear dictionary is made to 5 microvolts, half of what is allowed.
constexpr double kSlack = 5000;
/// Every so many faults the network is solved anew to hold the dictionary against.
constexpr std::size_t kSolvedAnew = 199;

double median(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

double seconds(const std::function<void()>& job) {
    const auto begin = std::chrono::steady_clock::now();
    job();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

RandomNetwork wiring(int node_count, bool nonlinear) {
    test::NetworkKind kind;
    if (nonlinear) kind = test::with_nonlinear_parts(node_count);
    kind.node_count = node_count;
    return test::body_electrics(kStart, kind);
}

/// Each conducting branch open, and with an ohm more; each node shorted to the body, and to node 0 (the first
/// battery).
std::vector<SingleChange> faults_of(const RandomNetwork& network) {
    std::vector<SingleChange> faults;
    for (int k = 0; k < static_cast<int>(network.branches.size()); ++k) {
        const Branch& branch = network.branches[at(k)];
        if (!branch.conducts) continue;
        faults.push_back({k, kBody, kBody, {}});
        const auto* resistance = std::get_if<model::Resistance>(&branch.law);
        const auto* source = std::get_if<model::Source>(&branch.law);
        if (resistance != nullptr) faults.push_back({k, kBody, kBody, {1 / (resistance->ohm + 1), 0}});
        if (source != nullptr)
            faults.push_back({k, kBody, kBody, {1 / (source->ohm + 1), -source->emf_v / (source->ohm + 1)}});
    }
    for (int node = 1; node < network.node_count; ++node) {
        faults.push_back({-1, node, kBody, {kShortSiemens, 0}});
        faults.push_back({-1, node, 0, {kShortSiemens, 0}});
    }
    return faults;
}

/// Median seconds of an alter of one resistance and an operating point.
double ngspice_alter_s(const RandomNetwork& network, int alters) {
    test::Ngspice ngspice;
    const auto require = [](const test::Ngspice::Done& done) {
        if (!done) throw std::runtime_error(done.error());
    };
    require(ngspice.load(test::ngspice_deck(network.node_count, network.branches, test::DeckFor::times)));
    require(ngspice.operating_point());
    test::Random random(1);
    std::vector<double> times;
    while (static_cast<int>(times.size()) < alters) {
        const int k = random.below(static_cast<int>(network.branches.size()));
        const auto* resistance = std::get_if<model::Resistance>(&network.branches[at(k)].law);
        if (resistance == nullptr || !network.branches[at(k)].conducts) continue;
        const std::string name = "R" + std::to_string(k);
        times.push_back(seconds([&] {
            require(ngspice.command("alter " + name + " = " + std::to_string(resistance->ohm + 1)));
            require(ngspice.operating_point());
        }));
        require(ngspice.command("alter " + name + " = " + std::to_string(resistance->ohm)));
    }
    return median(times);
}

std::vector<int> observed(int node_count, int count) {
    std::vector<int> nodes;
    nodes.reserve(at(count));
    for (int i = 0; i < count; ++i)
        nodes.push_back(static_cast<int>(static_cast<std::int64_t>(i) * node_count / count));
    return nodes;
}

/// One whole linear dictionary in single precision, from the solved network.
double linear_s(const RandomNetwork& network, const std::vector<SingleChange>& faults, int points,
                int& doubted) {
    Assembly assembly(network.node_count, network.branches);
    Newton(network.branches, assembly).run();
    const std::vector<int> nodes = observed(network.node_count, points);
    std::vector<float> values(faults.size() * nodes.size());
    return seconds([&] {
        const SingleChanges changes(assembly, faults);
        doubted = changes.doubted();
        changes.observe(nodes, [&](int fault, std::size_t first, std::span<const double> potential_v) {
            float* row = values.data() + at(fault) * nodes.size() + first;
            for (std::size_t k = 0; k < potential_v.size(); ++k) row[k] = static_cast<float>(potential_v[k]);
        });
    });
}

/// A network with a branch for every short to one node (kBody or another), and what its solver knows of the
/// sound state.
class NonlinearTrial {
  public:
    NonlinearTrial(const RandomNetwork& network, int shorted_to)
        : network_(network),
          first_short_(static_cast<int>(network.branches.size())),
          solver_(network.node_count, with_shorts(network, shorted_to), kSlack) {
        if (!solver_.solve_into(solution_)) throw std::runtime_error("no solution");
        solver_.remember();
    }

    const std::vector<double>& after(const SingleChange& fault) {
        solver_.go_back();
        put_in(fault, solver_);
        if (!solver_.solve_into(solution_)) ++unsolved;
        return solution_.potential_v;
    }

    /// From cold, to the last bit that counts.
    std::vector<double> anew(const SingleChange& fault, int shorted_to) const {
        Solver solver(network_.node_count, with_shorts(network_, shorted_to));
        put_in(fault, solver);
        const auto solution = solver.solve();
        if (!solution) throw std::runtime_error(solution.error().reason);
        return solution->potential_v;
    }

    int unsolved = 0;

  private:
    void put_in(const SingleChange& fault, Solver& solver) const {
        if (fault.branch < 0)
            solver.set_conducts(first_short_ + fault.from, true);
        else if (fault.line.conductance == 0)
            solver.set_conducts(fault.branch, false);
        else
            solver.set_law(fault.branch, with_an_ohm(network_.branches[at(fault.branch)].law));
    }

    static model::Law with_an_ohm(model::Law law) {
        if (auto* resistance = std::get_if<model::Resistance>(&law)) resistance->ohm += 1;
        if (auto* source = std::get_if<model::Source>(&law)) source->ohm += 1;
        return law;
    }
    static std::vector<Branch> with_shorts(const RandomNetwork& network, int to) {
        std::vector<Branch> branches = network.branches;
        for (int node = 0; node < network.node_count; ++node)
            branches.push_back({node, to, model::Resistance{1 / kShortSiemens}, false});
        return branches;
    }

    const RandomNetwork& network_;
    int first_short_;
    Solver solver_;
    Solution solution_;
};

double nonlinear_s(const RandomNetwork& network, const std::vector<SingleChange>& faults, int& unsolved) {
    double sum_v = 0;
    unsolved = 0;
    const double time_s = seconds([&] {
        for (const int shorted_to : {kBody, 0}) {
            NonlinearTrial trial(network, shorted_to);
            for (const SingleChange& fault : faults)
                if ((fault.branch < 0 && fault.to == 0) == (shorted_to == 0))
                    sum_v += trial.after(fault).front();
            unsolved += trial.unsolved;
        }
    });
    if (std::isnan(sum_v)) throw std::runtime_error("no number");
    return time_s;
}

/// What a dictionary and solving anew differ by at most, in volts.
double worst_difference_v(const RandomNetwork& network, const std::vector<SingleChange>& faults) {
    NonlinearTrial trial(network, kBody);
    double worst_v = 0;
    for (std::size_t i = 0; i < faults.size(); i += kSolvedAnew) {
        if (faults[i].branch < 0 && faults[i].to == 0) continue;
        const std::vector<double> anew = trial.anew(faults[i], kBody);
        const std::vector<double>& quick = trial.after(faults[i]);
        for (std::size_t node = 0; node < quick.size(); ++node)
            worst_v = std::max(worst_v, std::abs(quick[node] - anew[node]));
    }
    return worst_v;
}

void print_line(const char* what, std::size_t faults, double own_s, double ngspice_s) {
    std::printf("%-44s %7zu faults %10.2f ms %9.3f us each, ngspice %9.1f s (extrapolated): %9.0fx\n", what,
                faults, own_s * 1e3, own_s * 1e6 / static_cast<double>(faults),
                ngspice_s * static_cast<double>(faults), ngspice_s * static_cast<double>(faults) / own_s);
}

double print_linear(int node_count) {
    const RandomNetwork network = wiring(node_count, false);
    const std::vector<SingleChange> faults = faults_of(network);
    std::vector<double> ngspice;
    std::vector<double> all;
    std::vector<double> some;
    int doubted = 0;
    const bool fits = node_count <= 5000;
    for (int round = 0; round < kRounds; ++round) {
        ngspice.push_back(ngspice_alter_s(network, node_count <= 5000 ? kAltersARound : 3));
        if (fits) all.push_back(linear_s(network, faults, node_count, doubted));
        some.push_back(linear_s(network, faults, std::min(kPoints, node_count), doubted));
    }
    std::printf("%d nodes, linear; ngspice alter + op %.0f us, median of %d; %d of the faults doubted\n",
                node_count, median(ngspice) * 1e6, kRounds * (fits ? kAltersARound : 3), doubted);
    if (fits) print_line("  all voltages", faults.size(), median(all), median(ngspice));
    print_line("  200 points", faults.size(), median(some), median(ngspice));
    return median(some);
}

void print_nonlinear(int node_count) {
    const RandomNetwork network = wiring(node_count, true);
    const std::vector<SingleChange> faults = faults_of(network);
    std::vector<double> ngspice;
    std::vector<double> own;
    int unsolved = 0;
    for (int round = 0; round < kRounds; ++round) {
        ngspice.push_back(ngspice_alter_s(network, kAltersARound));
        own.push_back(nonlinear_s(network, faults, unsolved));
    }
    std::printf(
        "%d nodes, 9 %% nonlinear, to %.0e V; ngspice alter + op %.0f us; %d faults without solution; of "
        "every "
        "%zuth solved anew the worst differs by %.1e V\n",
        node_count, kSlack * kPotentialToleranceV, median(ngspice) * 1e6, unsolved, kSolvedAnew,
        worst_difference_v(network, faults));
    print_line("  all voltages", faults.size(), median(own), median(ngspice));
}

}  // namespace

void print_dictionary_comparison() {
    std::printf("\nDictionaries of generated networks, one thread; all faults of ours are computed\n");
    print_linear(500);
    const double at_5000_s = print_linear(5000);
    const double at_50000_s = print_linear(50000);
    std::printf("200 points: time grows as nodes^%.2f (5 000 to 50 000)\n",
                std::log10(at_50000_s / at_5000_s));
    print_nonlinear(500);
    print_nonlinear(5000);
}

}  // namespace halfsplit::benchmark_of
