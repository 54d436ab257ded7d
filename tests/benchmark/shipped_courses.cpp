#include "tests/benchmark/shipped_courses.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <ctime>
#include <stdexcept>
#include <string>

#include "engine/model/read_circuit.h"
#include "engine/simulation/course.h"
#include "engine/simulation/read_sets.h"
#include "tests/support/files.h"

namespace halfsplit::benchmark_of {

namespace {

constexpr int kRuns = 5;
/// As often a recorder of ten samples a second looks.
constexpr double kLookEveryS = 0.1;

struct Trip {
    const char* circuit;
    const char* state;
    const char* script;  ///< "" = none
    double until_s;
};

template <class Result>
auto or_throw(Result result) {
    if (!result) throw std::runtime_error(to_text(result.error().front()));
    return std::move(*result);
}

double course_seconds(const model::Circuit& circuit, const simulation::Settled& settled,
                      const std::vector<simulation::TimedSet>& sets, double until_s) {
    simulation::Course course = or_throw(simulation::Course::begin(circuit, settled, sets));
    const std::clock_t begin = std::clock();
    for (int i = 1; i * kLookEveryS <= until_s; ++i)
        if (!course.run_until(i * kLookEveryS)) throw std::runtime_error("the course broke off");
    return static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
}

void print(const Trip& trip) {
    const std::string file = test::project_file(std::string("circuits/") + trip.circuit + ".circuit.xml");
    const model::Circuit circuit = or_throw(model::read_circuit(file, test::read_file));
    const model::OperatingState* state = circuit.find_state(trip.state);
    if (state == nullptr) throw std::runtime_error(std::string("no state ") + trip.state);
    const simulation::Settled settled = or_throw(simulation::settle(circuit, {}, state->steps));
    std::vector<simulation::TimedSet> sets;
    if (*trip.script != '\0') {
        const std::string script = test::project_file(std::string("circuits/") + trip.script);
        const auto text = test::read_file(script);
        if (!text) throw std::runtime_error(script + ": " + text.error());
        sets = or_throw(simulation::read_sets(*text, script));
    }
    std::array<double, kRuns> seconds{};
    for (double& each : seconds) each = course_seconds(circuit, settled, sets, trip.until_s);
    std::sort(seconds.begin(), seconds.end());
    const double median_s = seconds[kRuns / 2];
    std::printf("%-14s %-18s %4.0f s in %.3f s: %5.0f times real time (best of %d runs: %.0f)\n",
                trip.circuit, trip.state, trip.until_s, median_s, trip.until_s / median_s, kRuns,
                trip.until_s / seconds.front());
}

}  // namespace

void print_shipped_courses() {
    std::printf("\nCircuits as shipped, in the course of time\n");
    for (const Trip& trip : {Trip{"entry-step", "step-parked", "entry-step.trip.txt", 60},
                             Trip{"van-body", "driving-at-night", "", 60}})
        print(trip);
}

}  // namespace halfsplit::benchmark_of
