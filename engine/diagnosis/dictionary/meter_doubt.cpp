#include "engine/diagnosis/dictionary/meter_doubt.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/finding_places.h"
#include "engine/instruments/voltmeter.h"
#include "engine/network/nodal/characteristic.h"

namespace halfsplit::diagnosis {

namespace {

constexpr double kNegligibleV = 1e-7;
/// No meter draws more than this: some 20 V over its resistance.
constexpr double kMostMeterA = 2e-6;
/// Moved by less than this, no law bends by more than kNegligibleV: a junction bends by v^2 / 2 over its
/// slope, some 50 mV.
constexpr double kStraightV = 5e-5;

/// How far the current is off the line that stands for the law when the voltage goes there.
double off_line_a(const model::Law& law, const network::Tangent& line, double to_v) {
    const double current_a = network::characteristic(law, to_v).current_a;
    return std::abs(current_a - line.current_a - line.slope_s * (to_v - line.at_v));
}

double across(const std::vector<double>& potential, int from, int to) {
    const auto of = [&](int node) { return node == network::kBody ? 0 : potential[at(node)]; };
    return of(from) - of(to);
}

}  // namespace

bool conducts(const network::Tangent& line) {
    return line.slope_s != 0 || line.current_a != 0;
}

MeterDoubt::MeterDoubt(const network::Network& network, const std::vector<FindingPlaces::Voltage>& voltages,
                       int first_meter, const network::Solver& solver, const network::Solution& solution)
    : voltages_(voltages), solver_(solver) {
    std::vector<int> asked(voltages.size());
    std::iota(asked.begin(), asked.end(), first_meter);
    std::vector<network::Tangent> lines;
    for (const network::Tangent& line : solver.tangents()) {
        if (!conducts(line)) continue;
        asked.push_back(line.branch);
        lines.push_back(line);
    }
    ohm_.resize(asked.size());
    solver.resistances(asked, ohm_);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (ohm_[voltages.size() + i] * kMostMeterA <= kStraightV) continue;
        const network::Branch& branch = network.branches[at(lines[i].branch)].electrical;
        ports_.push_back({lines[i].branch,
                          &branch.law,
                          lines[i],
                          across(solution.potential_v, branch.from, branch.to),
                          ohm_[voltages.size() + i],
                          {}});
    }
}

/// Volts between the leads per ampere through the port, and the other way round.
double MeterDoubt::between(Port& port, int meter) const {
    if (port.spread.empty()) solver_.spread(port.branch, port.spread);
    return std::abs(across(port.spread, voltages_[at(meter)].at, voltages_[at(meter)].against));
}

bool MeterDoubt::is_possible(int meter, double open_v) const {
    const double meter_a = std::abs(open_v) / (instruments::kVoltmeterOhm + ohm(meter));
    return !ports_.empty() && std::abs(open_v) > kNegligibleV && meter_a * ohm(meter) > kStraightV;
}

/// The meter moves nothing by more than it takes away between its own leads.
bool MeterDoubt::is_justified(int meter, double open_v) {
    const double meter_a = std::abs(open_v) / (instruments::kVoltmeterOhm + ohm(meter));
    if (!is_possible(meter, open_v)) return false;
    double off_v = 0;
    for (Port& port : ports_) {
        const double ohm_between = between(port, meter);
        const double most_v = std::min(meter_a * ohm_between, std::abs(open_v));
        const double off_a = std::max(off_line_a(*port.law, port.line, port.at_v + most_v),
                                      off_line_a(*port.law, port.line, port.at_v - most_v));
        off_v += off_a * ohm_between;
    }
    return off_v > kNegligibleV;
}

}  // namespace halfsplit::diagnosis
