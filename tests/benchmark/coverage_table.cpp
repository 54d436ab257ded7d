#include "tests/benchmark/coverage_table.h"

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <stdexcept>
#include <string>
#include <vector>

#include "engine/diagnosis/limits/limits.h"
#include "engine/diagnosis/limits/monte_carlo.h"
#include "engine/model/read_circuit.h"
#include "engine/simulation/settle.h"
#include "tests/support/files.h"

namespace halfsplit::benchmark_of {

namespace {

constexpr int kDraws = 10'000;
constexpr std::uint64_t kSeed = 1;
/// Limits closer than what a workshop multimeter shows of 12 V mean nothing to anyone.
constexpr double kShownV = 0.01;
/// A doubt less likely than this is beyond what the limits promise anyway.
constexpr double kWorthTelling = 0.001;

/// What was found at the points of a circuit's states.
struct Coverage {
    int states = 0;
    int points = 0;
    int off = 0;     ///< points where more than half a percent is missing or too much
    int untold = 0;  ///< of these, whose limits do not say that they are a guide
    double least = 1;
    double most = 0;
    double sum = 0;
    std::string worst;
    int doubts = 0;
    int elsewhere = 0;  ///< draws, of all
    int draws = 0;
};

template <class Result>
auto or_throw(Result result) {
    if (!result) throw std::runtime_error(to_text(result.error().front()));
    return std::move(*result);
}

std::vector<diagnosis::Observation> driven_points(const simulation::Settled& settled) {
    std::vector<diagnosis::Observation> observations;
    for (const std::string& point : settled.network.points) {
        const int node = settled.network.point_nodes.find(point)->second;
        if (node != network::kBody && !settled.point.floating[static_cast<std::size_t>(node)])
            observations.push_back({node, network::kBody});
    }
    return observations;
}

void add_state(const model::Circuit& circuit, const model::OperatingState& state, Coverage& coverage) {
    const simulation::Settled settled = or_throw(simulation::settle(circuit, {}, state.steps));
    const auto observations = driven_points(settled);
    const auto found = or_throw(limits_in_state(circuit, settled, observations));
    const auto drawn = or_throw(draw_vehicles(circuit, settled, observations, found.limits, kDraws, kSeed));
    ++coverage.states;
    coverage.draws += drawn.draws;
    coverage.elsewhere += drawn.elsewhere;
    coverage.doubts += static_cast<int>(std::ranges::count_if(
        found.doubts, [](const diagnosis::Doubt& doubt) { return doubt.chance >= kWorthTelling; }));
    for (std::size_t i = 0; i < observations.size(); ++i) {
        if (found.limits[i].high_v - found.limits[i].low_v < kShownV) continue;
        const double covered = drawn.covered[i];
        ++coverage.points;
        coverage.sum += covered;
        coverage.most = std::max(coverage.most, covered);
        if (covered < 0.985 || covered > 0.995) {
            ++coverage.off;
            if (!found.limits[i].bends) ++coverage.untold;
        }
        if (covered >= coverage.least) continue;
        coverage.least = covered;
        coverage.worst =
            state.id + " " + settled.network.node_names[static_cast<std::size_t>(observations[i].at)];
    }
}

void print(const std::filesystem::path& file) {
    const std::clock_t begin = std::clock();
    const model::Circuit circuit = or_throw(model::read_circuit(file.string(), test::read_file));
    Coverage coverage;
    // A vehicle also has the states of the circuits it includes, which are looked at by themselves.
    for (const model::OperatingState& state : circuit.states)
        if (state.where.file == file.string()) add_state(circuit, state, coverage);
    std::printf("| %-21s | %2d | %5d | %6.2f | %6.2f | %6.2f | %4d | %4d | %6.2f | %4d | %5.1f | %s |\n",
                circuit.id.c_str(), coverage.states, coverage.points, 100 * coverage.least,
                100 * coverage.sum / std::max(1, coverage.points), 100 * coverage.most, coverage.off,
                coverage.untold, 100.0 * coverage.elsewhere / std::max(1, coverage.draws), coverage.doubts,
                static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC, coverage.worst.c_str());
    std::fflush(stdout);
}

}  // namespace

void print_coverage() {
    std::printf(
        "\nShare of 10 000 drawn vehicles within the limits, in percent over points and states. Off: points "
        "outside 98.5 to\n99.5; untold: of these, points whose limits do not say that they are a guide. "
        "Elsewhere: draws in which a part\ngoes to another condition, not counted.\n"
        "| circuit | states | points | least | mean | most | off | untold | elsewhere | doubts | s | least "
        "at "
        "|\n| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |\n");
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(test::project_file("circuits")))
        if (entry.path().string().ends_with(".circuit.xml")) files.push_back(entry.path());
    std::ranges::sort(files);
    for (const std::filesystem::path& file : files) print(file);
}

}  // namespace halfsplit::benchmark_of
