#include "engine/diagnosis/limits/monte_carlo.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "engine/base/index.h"
#include "engine/diagnosis/limits/scatter.h"
#include "engine/diagnosis/limits/vehicle.h"

namespace halfsplit::diagnosis {

namespace {

/// Normally distributed numbers from a generator that is the same everywhere (Box & Muller, Annals of
/// Mathematical Statistics 29, 1958); the library's own distribution is not.
class Normal {
  public:
    explicit Normal(std::uint64_t seed) : generator_(seed) {}

    double operator()() {
        constexpr double kScale = 0x1p-53;
        constexpr unsigned kUnused = 11;
        const double radius = (static_cast<double>(generator_() >> kUnused) + 1) * kScale;
        const double turn = static_cast<double>(generator_() >> kUnused) * kScale;
        return std::sqrt(-2 * std::log(radius)) * std::cos(2 * std::numbers::pi * turn);
    }

  private:
    std::mt19937_64 generator_;
};

/// Every value of every part and wire as another vehicle has it.
void draw(const model::Circuit& circuit, const std::vector<Scatter>& scatters, Normal& normal,
          Vehicle& vehicle) {
    for (std::size_t i = 0; i < scatters.size();) {
        if (scatters[i].part < 0) {
            vehicle.set_wire(scatters[i].wire, scattered(circuit, scatters[i], normal()));
            ++i;
            continue;
        }
        const int part = scatters[i].part;
        std::vector<double> numbers = circuit.parts[at(part)].numbers;
        for (; i < scatters.size() && scatters[i].part == part; ++i)
            numbers[at(scatters[i].number)] = scattered(circuit, scatters[i], normal());
        vehicle.set_part(part, numbers);
    }
}

bool stays_in_state(const Vehicle& vehicle) {
    for (int trigger = 0; trigger < vehicle.triggers(); ++trigger)
        if (vehicle.margin(trigger).value_or(1) < 0) return false;
    return true;
}

}  // namespace

tl::expected<Drawn, Diagnostics> draw_vehicles(const model::Circuit& circuit,
                                               const simulation::Settled& settled,
                                               const std::vector<Observation>& observations,
                                               const std::vector<Limits>& limits, int draws,
                                               std::uint64_t seed) {
    auto vehicle = Vehicle::nominal(circuit, settled);
    if (!vehicle) return tl::unexpected(vehicle.error());
    const std::vector<Scatter> scatters = scatter_of(circuit);
    Normal normal(seed);
    Drawn drawn{draws, 0, std::vector<double>(observations.size(), 0),
                std::vector<double>(observations.size(), 0)};
    for (int i = 0; i < draws; ++i) {
        draw(circuit, scatters, normal, *vehicle);
        if (!vehicle->solve()) return tl::unexpected(one_problem("a drawn vehicle has no operating point"));
        if (!stays_in_state(*vehicle)) {
            ++drawn.elsewhere;
            continue;
        }
        for (std::size_t k = 0; k < observations.size(); ++k) {
            const double off_v = vehicle->reading_v(observations[k]) - limits[k].nominal_v;
            const double half_v = (limits[k].high_v - limits[k].low_v) / 2;
            if (std::abs(off_v) <= half_v) ++drawn.covered[k];
            drawn.deviation_v[k] += off_v * off_v;
        }
    }
    const int counted = std::max(1, draws - drawn.elsewhere);
    for (double& share : drawn.covered) share /= counted;
    for (double& square : drawn.deviation_v) square = std::sqrt(square / counted);
    return drawn;
}

}  // namespace halfsplit::diagnosis
