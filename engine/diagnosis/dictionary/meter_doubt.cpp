#include "engine/diagnosis/dictionary/meter_doubt.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/finding_places.h"
#include "engine/network/characteristic.h"

namespace halfsplit::diagnosis {

namespace {

constexpr double kNegligibleV = 1e-6;
/// No meter draws more than this: some 20 V over its resistance.
constexpr double kMostMeterA = 2e-6;
/// Moved by less than this, no law bends by more than kNegligibleV: a junction bends by v^2 / 2 over its
/// slope, some 50 mV.
constexpr double kStraightV = 2e-4;

/// How far the current is off its tangent when the voltage moves by so much.
double bend_a(const model::Law& law, double at_v, double by_v) {
    const network::OperatingSlope here = network::characteristic(law, at_v);
    const network::OperatingSlope there = network::characteristic(law, at_v + by_v);
    return std::abs(there.current_a - here.current_a - here.slope_s * by_v);
}

}  // namespace

MeterDoubt::MeterDoubt(const network::Network& network, const std::vector<int>& meters,
                       const network::Solver& solver, const network::Solution& solution) {
    std::vector<int> asked = meters;
    for (const network::Tangent& tangent : solver.tangents())
        if (tangent.slope_s != 0 || tangent.current_a != 0 || tangent.at_v != 0)
            asked.push_back(tangent.branch);
    std::vector<double> ohm(asked.size());
    solver.resistances(asked, ohm);
    const auto potential_v = [&](int node) {
        return node == network::kBody ? 0 : solution.potential_v[at(node)];
    };
    for (std::size_t i = meters.size(); i < asked.size(); ++i) {
        if (ohm[i] * kMostMeterA <= kStraightV) continue;
        const network::Branch& branch = network.branches[at(asked[i])].electrical;
        ports_.push_back({&branch.law, potential_v(branch.from) - potential_v(branch.to), ohm[i]});
    }
    ohm.resize(meters.size());
    ohm_ = std::move(ohm);
}

/// Between the ends of a port the meter's current moves no more than it would there itself, nor more than at
/// the meter (a network of resistances has no gain), nor more than the meter takes away altogether.
bool MeterDoubt::is_justified(double open_v, double ohm) const {
    const double meter_a = std::abs(open_v) / (kMeterOhm + ohm);
    if (std::abs(open_v) <= kNegligibleV || meter_a * ohm <= kStraightV) return false;
    double off_v = 0;
    for (const Port& port : ports_) {
        const double most_v = std::min(meter_a * std::min(port.ohm, ohm), std::abs(open_v));
        const double bend =
            std::max(bend_a(*port.law, port.at_v, most_v), bend_a(*port.law, port.at_v, -most_v));
        off_v += bend * std::min(port.ohm, ohm);
    }
    return off_v > kNegligibleV;
}

}  // namespace halfsplit::diagnosis
