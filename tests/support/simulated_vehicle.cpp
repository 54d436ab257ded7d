#include "tests/support/simulated_vehicle.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/diagnosis/dictionary/row_anew.h"
#include "engine/diagnosis/dictionary/sign.h"
#include "engine/diagnosis/limits/scatter.h"

namespace halfsplit::test {

using diagnosis::Finding;

namespace {

double even_from(std::mt19937_64& generator) {
    return static_cast<double>(generator() >> 11U) * 0x1p-53;
}

/// Box & Muller, Annals of Mathematical Statistics 29, 1958.
double normal_from(std::mt19937_64& generator) {
    const double radius = even_from(generator) + 0x1p-53;
    return std::sqrt(-2 * std::log(radius)) * std::cos(2 * std::numbers::pi * even_from(generator));
}

}  // namespace

model::Circuit scattered_circuit(const model::Circuit& circuit, std::mt19937_64& generator) {
    model::Circuit other = circuit;
    for (const diagnosis::Scatter& scatter : diagnosis::scatter_of(circuit)) {
        const double value = diagnosis::scattered(circuit, scatter, normal_from(generator));
        if (scatter.part >= 0) {
            other.parts[at(scatter.part)].numbers[at(scatter.number)] = value;
            continue;
        }
        model::Wire& wire = other.wires[at(scatter.wire)];
        if (wire.ohm)
            wire.ohm = *wire.ohm * value;
        else
            wire.length_m *= value;
    }
    return other;
}

std::vector<char> unnoticed_faults(const diagnosis::Hypotheses& hypotheses) {
    std::vector<char> unnoticed;
    for (int row = 1; row < hypotheses.dictionary().rows(); ++row)
        unnoticed.push_back(hypotheses.is_noticed(row) ? 0 : 1);
    return unnoticed;
}

std::vector<int> draw_faults(const diagnosis::Dictionary& dictionary, const std::vector<char>& unnoticed,
                             int count, std::mt19937_64& generator) {
    std::vector<int> drawn;
    while (static_cast<int>(drawn.size()) < count) {
        double sum = 0;
        for (std::size_t i = 0; i < unnoticed.size(); ++i)
            if (unnoticed[i] == 0) sum += dictionary.faults[i].rate;
        double left = even_from(generator) * sum;
        int fault = 0;
        for (std::size_t i = 0; i < unnoticed.size() && left >= 0; ++i) {
            if (unnoticed[i] != 0) continue;
            fault = static_cast<int>(i);
            left -= dictionary.faults[i].rate;
        }
        if (std::ranges::find(drawn, fault) == drawn.end()) drawn.push_back(fault);
    }
    return drawn;
}

SimulatedVehicle::SimulatedVehicle(const model::Circuit& circuit, const diagnosis::Dictionary& dictionary,
                                   std::vector<int> broken, const std::vector<char>& unnoticed,
                                   const Sloppiness& sloppiness, std::uint64_t seed)
    : circuit_(circuit),
      dictionary_(dictionary),
      broken_(std::move(broken)),
      unnoticed_(unnoticed),
      sloppiness_(sloppiness),
      generator_(seed) {
    if (sloppiness.scatters) circuit_ = scattered_circuit(circuit, generator_);
}

diagnosis::PatientVehicle SimulatedVehicle::patient() {
    return {[this](const diagnosis::Test& test) { return read(test); },
            [this](int fault) { return std::ranges::find(broken_, fault) != broken_.end(); },
            [this](int fault) {
                std::erase(broken_, fault);
                rows_.clear();
                return std::ranges::all_of(broken_, [this](int each) { return unnoticed_[at(each)] != 0; });
            }};
}

std::optional<double> SimulatedVehicle::read(const diagnosis::Test& test) {
    const std::vector<float>& values = row(test.state);
    const Finding& finding = dictionary_.findings[at(test.finding)];
    if (even() < sloppiness_.nonsense_share) return nonsense(finding);
    if (values.empty() || !std::isfinite(values[at(test.finding)])) return std::nullopt;
    return with_error(finding, static_cast<double>(values[at(test.finding)]));
}

const std::vector<float>& SimulatedVehicle::row(int state) {
    const auto known = rows_.find(state);
    if (known != rows_.end()) return known->second;
    std::vector<network::Fault> faults;
    for (const int each : broken_) faults.push_back(dictionary_.faults[at(each)].fault);
    std::vector<float> values(dictionary_.findings.size());
    const diagnosis::Told told =
        diagnosis::row_anew(circuit_, *circuit_.find_state(dictionary_.states[at(state)]), faults,
                            dictionary_.findings, dictionary_.pulses[at(state)], values);
    if (told == diagnosis::Told::not_at_all) values.clear();
    return rows_[state] = std::move(values);
}

double SimulatedVehicle::nonsense(const Finding& finding) {
    if (finding.kind == Finding::Kind::sign) {
        const model::Part* part = circuit_.find_part(finding.at);
        const bool is_fuse = part != nullptr && diagnosis::is_fuse(*part);
        return is_fuse ? std::floor(even() * 2) * 3 : std::floor(even() * 3);
    }
    const double most = finding.kind == Finding::Kind::voltage ? circuit_.nominal_v * 1.05 : 10;
    return even() * most;
}

double SimulatedVehicle::with_error(const Finding& finding, double value) {
    if (!sloppiness_.scatters || finding.kind == Finding::Kind::sign) return value;
    const diagnosis::Assumptions assumptions;
    const diagnosis::Meter& meter =
        finding.kind == Finding::Kind::voltage ? assumptions.voltmeter : assumptions.clamp;
    const double limit = std::sqrt(3 * diagnosis::meter_variance(meter, value));
    return value + (2 * even() - 1) * limit;
}

double SimulatedVehicle::even() {
    return even_from(generator_);
}

}  // namespace halfsplit::test
