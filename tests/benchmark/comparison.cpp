#include "tests/benchmark/comparison.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <functional>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "engine/network/nodal/assembly.h"
#include "engine/network/nodal/constants.h"
#include "engine/network/nodal/newton.h"
#include "engine/network/nodal/solver.h"
#include "tests/benchmark/library_solvers.h"
#include "tests/support/ngspice.h"
#include "tests/support/ngspice_deck.h"
#include "tests/support/random_network.h"

namespace halfsplit::benchmark_of {

namespace {

using namespace halfsplit::network;
using test::RandomNetwork;

constexpr int kSizes[] = {50, 500, 5000, 50000};
constexpr std::uint64_t kStart = 7;

double median(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// Microseconds of one call: the median of as many calls as fit in about 20 ms, at least one.
double microseconds(const std::function<void()>& job) {
    std::vector<double> times;
    double total = 0;
    do {
        const auto begin = std::chrono::steady_clock::now();
        job();
        times.push_back(
            std::chrono::duration<double, std::micro>(std::chrono::steady_clock::now() - begin).count());
        total += times.back();
    } while (total < 2e4);
    return median(times);
}

/// Named jobs of one network size, timed in rounds: every job once a round.
class Rounds {
  public:
    void add(const std::string& name, std::function<void()> job) { jobs_.emplace_back(name, std::move(job)); }
    std::map<std::string, double> run(int count) {
        std::map<std::string, std::vector<double>> times;
        for (int i = 0; i < count; ++i)
            for (const auto& [name, job] : jobs_) times[name].push_back(microseconds(job));
        std::map<std::string, double> medians;
        for (const auto& [name, of] : times) medians[name] = median(of);
        return medians;
    }

  private:
    std::vector<std::pair<std::string, std::function<void()>>> jobs_;
};

void require(const test::Ngspice::Done& done) {
    if (!done) throw std::runtime_error(done.error());
}

template <class Result>
void require_solved(const Result& result) {
    if (!result) throw std::runtime_error("no solution: " + result.error().reason);
}

RandomNetwork wiring(int node_count, bool nonlinear) {
    test::NetworkKind kind;
    if (nonlinear) kind = test::with_nonlinear_parts(node_count);
    kind.node_count = node_count;
    return test::body_electrics(kStart, kind);
}

int conducting_resistance(const RandomNetwork& network) {
    for (std::size_t k = network.branches.size() / 2;; ++k)
        if (network.branches[k].conducts &&
            std::holds_alternative<model::Resistance>(network.branches[k].law))
            return static_cast<int>(k);
}

/// One network that is altered in one resistance, to and fro.
struct Altered {
    explicit Altered(const RandomNetwork& network)
        : branch(conducting_resistance(network)),
          ohm(std::get<model::Resistance>(network.branches[static_cast<std::size_t>(branch)].law).ohm) {}
    double next_ohm() { return (doubled = !doubled) ? 2 * ohm : ohm; }

    int branch;
    double ohm;
    bool doubled = false;
};

std::map<std::string, double> operating_points(int node_count, bool nonlinear, int rounds) {
    const RandomNetwork network = wiring(node_count, nonlinear);
    Solver kept(node_count, network.branches);
    require_solved(kept.solve());
    Assembly assembly(node_count, network.branches);
    Newton newton(network.branches, assembly);
    newton.run();
    Altered in_solver(network);
    Altered in_assembly(network);
    Altered in_ngspice(network);
    test::Ngspice ngspice;
    require(ngspice.load(test::ngspice_deck(node_count, network.branches, test::DeckFor::times)));

    Rounds timed;
    timed.add("ngspice op", [&] { require(ngspice.operating_point()); });
    timed.add("cold", [&] { require_solved(Solver(node_count, network.branches).solve()); });
    timed.add("ngspice alter+op", [&] {
        const std::string branch = std::to_string(in_ngspice.branch);
        require(ngspice.command("alter R" + branch + " = " + std::to_string(in_ngspice.next_ohm())));
        require(ngspice.operating_point());
    });
    timed.add("change, all checked", [&] {
        kept.set_law(in_solver.branch, model::Resistance{in_solver.next_ohm()});
        require_solved(kept.solve());
    });
    timed.add("change, potentials", [&] {
        assembly.set(in_assembly.branch, {1 / in_assembly.next_ohm(), 0});
        assembly.solve();
    });
    return timed.run(rounds);
}

/// The nodal matrix of a linear network, node by node as numbered, and the currents of its sources.
struct NodalSystem {
    explicit NodalSystem(const RandomNetwork& network)
        : matrix(network.node_count, network.node_count), right(Eigen::VectorXd::Zero(network.node_count)) {
        std::vector<Eigen::Triplet<double>> entries;
        entries.reserve(static_cast<std::size_t>(network.node_count));
        for (int node = 0; node < network.node_count; ++node)
            entries.emplace_back(node, node, kLeakageSiemens);
        for (const Branch& branch : network.branches) {
            const auto* source = std::get_if<model::Source>(&branch.law);
            const double ohm = source != nullptr ? source->ohm : std::get<model::Resistance>(branch.law).ohm;
            const double conductance = branch.conducts ? 1 / ohm : 0;
            const double current_a = source != nullptr ? conductance * source->emf_v : 0;
            stamp(branch.from, branch.to, conductance, current_a, entries);
            stamp(branch.to, branch.from, conductance, -current_a, entries);
        }
        matrix.setFromTriplets(entries.begin(), entries.end());
    }
    void stamp(int node, int other, double conductance, double current_a,
               std::vector<Eigen::Triplet<double>>& entries) {
        if (node == kBody) return;
        right[node] += current_a;
        entries.emplace_back(node, node, conductance);
        if (other != kBody) entries.emplace_back(node, other, -conductance);
    }

    Eigen::SparseMatrix<double> matrix;
    Eigen::VectorXd right;
};

std::map<std::string, double> factor_and_solve(int node_count, int rounds) {
    const RandomNetwork network = wiring(node_count, false);
    NodalSystem system(network);
    const auto libraries = library_solvers(system.matrix, system.right);
    Assembly assembly(node_count, network.branches);
    Newton(network.branches, assembly).run();
    Elimination elimination = assembly.elimination();
    std::vector<double> potential(static_cast<std::size_t>(node_count) + 1);

    Rounds timed;
    timed.add("own", [&] {
        elimination.factor();
        elimination.solve(potential);
    });
    for (const auto& library : libraries) timed.add(library->name(), [&] { library->factor_and_solve(); });
    auto medians = timed.run(rounds);
    for (const auto& library : libraries) {
        const Eigen::VectorXd theirs = library->solution();
        for (int node = 0; node < node_count; ++node)
            if (std::abs(theirs[node] -
                         assembly.potential()[static_cast<std::size_t>(assembly.column(node))]) > 1e-3)
                throw std::runtime_error(library->name() + " solves another system");
    }
    return medians;
}

void print_row(const std::string& name, const std::map<int, std::map<std::string, double>>& of,
               const char* job) {
    std::printf("%-34s", name.c_str());
    for (const int size : kSizes) std::printf(" %12.2f", of.at(size).at(job));
    std::printf("\n");
}

void print_ratio(const std::string& name, const std::map<int, std::map<std::string, double>>& of,
                 const char* slow, const char* quick) {
    std::printf("%-34s", name.c_str());
    for (const int size : kSizes) std::printf(" %12.1f", of.at(size).at(slow) / of.at(size).at(quick));
    std::printf("\n");
}

void print_heading(const std::string& title) {
    std::printf("\n%-34s", (title + ", us").c_str());
    for (const int size : kSizes) std::printf(" %6d nodes", size);
    std::printf("\n");
}

void print_operating_points(bool nonlinear) {
    std::map<int, std::map<std::string, double>> of;
    for (const int size : kSizes) of[size] = operating_points(size, nonlinear, size < 50000 ? 7 : 3);
    print_heading(nonlinear ? "9 % nonlinear branches" : "linear networks");
    print_row("ngspice op", of, "ngspice op");
    print_row("own, structure to checked currents", of, "cold");
    print_row("ngspice alter + op", of, "ngspice alter+op");
    print_row("own, one change, all checked", of, "change, all checked");
    if (!nonlinear) print_row("own, one change, all potentials", of, "change, potentials");
    print_ratio("times quicker: cold", of, "ngspice op", "cold");
    print_ratio("times quicker: change, checked", of, "ngspice alter+op", "change, all checked");
    if (!nonlinear)
        print_ratio("times quicker: change, potentials", of, "ngspice alter+op", "change, potentials");
}

/// Exponent of the power law that fits the times from 500 nodes on best.
double growth(const std::map<int, std::map<std::string, double>>& of) {
    double sum_x = 0;
    double sum_y = 0;
    double sum_xx = 0;
    double sum_xy = 0;
    double count = 0;
    for (const auto& [size, times] : of) {
        if (size < 500) continue;
        const double x = std::log(size);
        const double y = std::log(times.at("own"));
        sum_x += x;
        sum_y += y;
        sum_xx += x * x;
        sum_xy += x * y;
        ++count;
    }
    return (count * sum_xy - sum_x * sum_y) / (count * sum_xx - sum_x * sum_x);
}

void print_factor_and_solve() {
    std::map<int, std::map<std::string, double>> of;
    for (const int size : kSizes) {
        of[size] = factor_and_solve(size, 9);
        double best = of[size].at("KLU");
        for (const char* library : {"Eigen LLT", "Eigen LDLT", "CHOLMOD"})
            best = std::min(best, of[size].at(library));
        of[size]["best library"] = best;
    }
    print_heading("factor + solve, structure known");
    for (const char* name : {"own", "Eigen LLT", "Eigen LDLT", "CHOLMOD", "KLU"}) print_row(name, of, name);
    print_ratio("times quicker than the best", of, "best library", "own");
    std::printf("own factor + solve grows as nodes^%.2f (500 to 50 000)\n", growth(of));
}

}  // namespace

void print_comparison() {
    print_operating_points(false);
    print_operating_points(true);
    print_factor_and_solve();
}

}  // namespace halfsplit::benchmark_of
