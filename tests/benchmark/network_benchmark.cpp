#include <benchmark/benchmark.h>

#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "engine/network/nodal/assembly.h"
#include "engine/network/nodal/newton.h"
#include "engine/network/nodal/solver.h"
#include "tests/benchmark/comparison.h"
#include "tests/benchmark/course_comparison.h"
#include "tests/benchmark/coverage_table.h"
#include "tests/benchmark/diagnosis_table.h"
#include "tests/benchmark/dictionary_comparison.h"
#include "tests/benchmark/shipped_courses.h"
#include "tests/support/random_network.h"

namespace {

using namespace halfsplit::network;
using namespace halfsplit::test;

RandomNetwork wiring(benchmark::State& state, bool nonlinear) {
    const int node_count = static_cast<int>(state.range(0));
    NetworkKind kind;
    if (nonlinear) kind = with_nonlinear_parts(node_count);
    kind.node_count = node_count;
    return body_electrics(7, kind);
}

void sizes(benchmark::internal::Benchmark* of) {
    of->Arg(50)->Arg(500)->Arg(5000)->Arg(50000);
}

void cold(benchmark::State& state, bool nonlinear) {
    const RandomNetwork network = wiring(state, nonlinear);
    for (auto _ : state) benchmark::DoNotOptimize(Solver(network.node_count, network.branches).solve());
}
BENCHMARK_CAPTURE(cold, linear, false)->Apply(sizes)->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(cold, nonlinear, true)->Apply(sizes)->Unit(benchmark::kMicrosecond);

void one_switch(benchmark::State& state, bool nonlinear) {
    const RandomNetwork network = wiring(state, nonlinear);
    Solver solver(network.node_count, network.branches);
    benchmark::DoNotOptimize(solver.solve());
    Random random(1);
    std::vector<char> conducts;
    for (const Branch& branch : network.branches) conducts.push_back(branch.conducts ? 1 : 0);
    for (auto _ : state) {
        const int k = random.below(static_cast<int>(network.branches.size()));
        char& now = conducts[static_cast<std::size_t>(k)];
        now = now != 0 ? 0 : 1;
        solver.set_conducts(k, now != 0);
        benchmark::DoNotOptimize(solver.solve());
    }
}
BENCHMARK_CAPTURE(one_switch, linear, false)->Apply(sizes)->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(one_switch, nonlinear, true)->Apply(sizes)->Unit(benchmark::kMicrosecond);

void factor_and_solve(benchmark::State& state) {
    const RandomNetwork network = wiring(state, false);
    Assembly assembly(network.node_count, network.branches);
    Newton(network.branches, assembly).run();
    Elimination elimination = assembly.elimination();
    std::vector<double> potential(static_cast<std::size_t>(network.node_count) + 1);
    for (auto _ : state) {
        elimination.factor();
        elimination.solve(potential);
        benchmark::DoNotOptimize(potential.data());
    }
}
BENCHMARK(factor_and_solve)->Apply(sizes)->Unit(benchmark::kMicrosecond);

void mesh(benchmark::State& state) {
    const RandomNetwork network = grid(1, static_cast<int>(state.range(0)));
    for (auto _ : state) benchmark::DoNotOptimize(Solver(network.node_count, network.branches).solve());
}
BENCHMARK(mesh)->Arg(20)->Arg(60)->Arg(200)->Unit(benchmark::kMicrosecond);

}  // namespace

/// Google Benchmark's own arguments hold; the comparisons with other solvers follow unless a filter is given.
/// "--courses" alone: only the comparison in time; "--dictionary" alone: only that of dictionaries.
/// "--coverage": how well limits cover drawn vehicles; "--diagnosis COUNT [--seed NUMBER] [--complaint]
/// [--manner "single faults"] [CIRCUIT…]": how so many drawn vehicles of each circuit are diagnosed.
int main(int argc, char** argv) {
    if (argc == 2 && std::string_view(argv[1]) == "--coverage") {
        halfsplit::benchmark_of::print_coverage();
        return 0;
    }
    if (argc >= 3 && std::string_view(argv[1]) == "--diagnosis") {
        halfsplit::benchmark_of::Draws draws;
        draws.count = std::atoi(argv[2]);
        int next = 3;
        for (; next < argc && argv[next][0] == '-'; ++next) {
            const std::string_view option = argv[next];
            if (option == "--complaint")
                draws.with_complaint = true;
            else if (option == "--seed" && next + 1 < argc)
                draws.seed = std::strtoull(argv[++next], nullptr, 10);
            else if (option == "--manner" && next + 1 < argc)
                draws.manner = argv[++next];
            else {
                std::fprintf(stderr, "--diagnosis does not know '%s'\n", argv[next]);
                return 2;
            }
        }
        // All circuits where none is named.
        halfsplit::benchmark_of::print_diagnoses({argv + next, argv + argc}, draws);
        return 0;
    }
    const bool all = argc == 1;
    const bool courses_only = argc == 2 && std::string_view(argv[1]) == "--courses";
    const bool dictionary_only = argc == 2 && std::string_view(argv[1]) == "--dictionary";
    if (!courses_only && !dictionary_only) {
        benchmark::Initialize(&argc, argv);
        benchmark::RunSpecifiedBenchmarks();
    }
    if (all) halfsplit::benchmark_of::print_comparison();
    if (all || courses_only) {
        halfsplit::benchmark_of::print_shipped_courses();
        halfsplit::benchmark_of::print_course_comparison();
    }
    if (all || dictionary_only) halfsplit::benchmark_of::print_dictionary_comparison();
    return 0;
}
