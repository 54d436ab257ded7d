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

/// More of a scatter than this in bends, and the middle 99 % are no longer where a normal distribution has
/// them by more than half a percent (found by drawing vehicles, see the benchmark's coverage).
constexpr double kBentShare = 0.15;

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

/// Sums of squares, one per reading or margin.
struct Squares {
    explicit Squares(std::size_t count) : moved(count, 0), bent(count, 0) {}

    /// Each side by itself: where something bends, so that it moves the same way on both, half of the
    /// difference would say that nothing happens.
    void add(const std::vector<double>& nominal, const std::vector<double>& less,
             const std::vector<double>& more) {
        for (std::size_t i = 0; i < moved.size(); ++i) {
            const double down = less[i] - nominal[i];
            const double up = more[i] - nominal[i];
            moved[i] += (down * down + up * up) / 2;
            bent[i] += (up + down) * (up + down) / 4;
        }
    }

    std::vector<double> moved;
    std::vector<double> bent;  ///< of these what is not as a straight line has it
};

StateLimits summed_up(const simulation::Settled& settled, const Vehicle& nominal, const Seen& seen,
                      const Squares& readings, const Squares& margins) {
    StateLimits found;
    for (std::size_t i = 0; i < seen.readings_v.size(); ++i) {
        const double half_v = kMiddle99 * std::sqrt(readings.moved[i]);
        const bool bends = readings.bent[i] > kBentShare * kBentShare * readings.moved[i];
        found.limits.push_back(
            {seen.readings_v[i], seen.readings_v[i] - half_v, seen.readings_v[i] + half_v, bends});
    }
    for (int trigger = 0; trigger < nominal.triggers(); ++trigger) {
        const double sigma = std::sqrt(margins.moved[at(trigger)]);
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
    Squares readings(nominal.readings_v.size());
    Squares margins(nominal.margins.size());
    for (const Scatter& scatter : scatter_of(circuit)) {
        Seen seen[2];
        for (const int side : {0, 1}) {
            set(circuit, scatter, side == 0 ? -1 : 1, *vehicle);
            if (!vehicle->solve())
                return tl::unexpected(one_problem("a vehicle within tolerance has no operating point"));
            seen[side] = look(*vehicle, observations);
        }
        reset(scatter, *vehicle);
        readings.add(nominal.readings_v, seen[0].readings_v, seen[1].readings_v);
        margins.add(nominal.margins, seen[0].margins, seen[1].margins);
    }
    if (!vehicle->solve()) return tl::unexpected(one_problem("the nominal vehicle has no operating point"));
    return summed_up(settled, *vehicle, nominal, readings, margins);
}

}  // namespace halfsplit::diagnosis
