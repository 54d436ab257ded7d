#include "engine/diagnosis/limits/limits.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/base/index.h"
#include "engine/diagnosis/limits/scatter.h"
#include "engine/diagnosis/limits/vehicle.h"

namespace halfsplit::diagnosis {

namespace {

/// Farther off than this, in standard deviations, nothing is doubted.
constexpr double kBeyondDoubt = 4;

/// What a vehicle reads and how far its parts are from acting; 0 for those that cannot.
struct Seen {
    std::vector<double> readings_v;
    std::vector<double> margins;
};

Seen look(const Vehicle& vehicle, const std::vector<Observation>& observations) {
    Seen seen;
    for (const Observation& observation : observations)
        seen.readings_v.push_back(vehicle.reading_v(observation));
    for (int trigger = 0; trigger < vehicle.triggers(); ++trigger)
        seen.margins.push_back(vehicle.margin(trigger).value_or(0));
    return seen;
}

void set(const model::Circuit& circuit, const Scatter& scatter, double sigmas, Vehicle& vehicle) {
    const double value = scattered(circuit, scatter, sigmas);
    if (scatter.part < 0) return vehicle.set_wire(scatter.wire, value);
    std::vector<double> numbers = circuit.parts[at(scatter.part)].numbers;
    numbers[at(scatter.number)] = value;
    vehicle.set_part(scatter.part, numbers);
}

void reset(const Scatter& scatter, Vehicle& vehicle) {
    if (scatter.part < 0)
        vehicle.reset_wire(scatter.wire);
    else
        vehicle.reset_part(scatter.part);
}

void add_squares(const std::vector<double>& less, const std::vector<double>& more,
                 std::vector<double>& squares) {
    for (std::size_t i = 0; i < squares.size(); ++i) {
        const double per_sigma = (more[i] - less[i]) / 2;
        squares[i] += per_sigma * per_sigma;
    }
}

StateLimits summed_up(const simulation::Settled& settled, const Vehicle& nominal, const Seen& seen,
                      const Seen& squares) {
    StateLimits found;
    for (std::size_t i = 0; i < seen.readings_v.size(); ++i) {
        const double half_v = kMiddle99 * std::sqrt(squares.readings_v[i]);
        found.limits.push_back(
            {seen.readings_v[i], seen.readings_v[i] - half_v, seen.readings_v[i] + half_v});
    }
    for (int trigger = 0; trigger < nominal.triggers(); ++trigger) {
        const double sigma = std::sqrt(squares.margins[at(trigger)]);
        if (!nominal.margin(trigger) || sigma == 0) continue;
        const double margin = seen.margins[at(trigger)] / sigma;
        if (margin < kBeyondDoubt)
            found.doubts.push_back({settled.network.triggers[at(trigger)].part, margin,
                                    0.5 * std::erfc(margin / std::numbers::sqrt2)});
    }
    std::ranges::sort(found.doubts, {}, &Doubt::margin);
    return found;
}

}  // namespace

tl::expected<StateLimits, Diagnostics> limits_in_state(const model::Circuit& circuit,
                                                       const simulation::Settled& settled,
                                                       const std::vector<Observation>& observations) {
    auto vehicle = Vehicle::nominal(circuit, settled);
    if (!vehicle) return tl::unexpected(vehicle.error());
    const Seen nominal = look(*vehicle, observations);
    Seen squares{std::vector<double>(nominal.readings_v.size(), 0),
                 std::vector<double>(nominal.margins.size(), 0)};
    for (const Scatter& scatter : scatter_of(circuit)) {
        Seen seen[2];
        for (const int side : {0, 1}) {
            set(circuit, scatter, side == 0 ? -1 : 1, *vehicle);
            if (!vehicle->solve())
                return tl::unexpected(one_problem("a vehicle within tolerance has no operating point"));
            seen[side] = look(*vehicle, observations);
        }
        reset(scatter, *vehicle);
        add_squares(seen[0].readings_v, seen[1].readings_v, squares.readings_v);
        add_squares(seen[0].margins, seen[1].margins, squares.margins);
    }
    if (!vehicle->solve()) return tl::unexpected(one_problem("the nominal vehicle has no operating point"));
    return summed_up(settled, *vehicle, nominal, squares);
}

}  // namespace halfsplit::diagnosis
