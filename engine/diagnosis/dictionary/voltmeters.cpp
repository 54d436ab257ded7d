#include "engine/diagnosis/dictionary/voltmeters.h"

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/meter_doubt.h"

namespace halfsplit::diagnosis {

bool Voltmeters::read(const network::Network& network, network::Solver& solver,
                      const network::Solution& solution, std::span<float> row) {
    MeterDoubt doubt(network, places_.voltages, first_meter_, solver, solution);
    const auto potential_v = [&](int node) {
        return node == network::kBody ? 0 : solution.potential_v[at(node)];
    };
    doubtful_.clear();
    for (int meter = 0; meter < static_cast<int>(places_.voltages.size()); ++meter) {
        const FindingPlaces::Voltage& voltage = places_.voltages[at(meter)];
        const double open_v = potential_v(voltage.at) - potential_v(voltage.against);
        row[at(voltage.finding)] = static_cast<float>(open_v * kMeterOhm / (kMeterOhm + doubt.ohm(meter)));
        if (doubt.is_justified(meter, open_v)) doubtful_.push_back(meter);
    }
    connected_ += static_cast<int>(doubtful_.size());
    for (const int meter : doubtful_)
        if (!connect(meter, solver, row[at(places_.voltages[at(meter)].finding)])) return false;
    return true;
}

bool Voltmeters::learn(const network::Network& network, network::Solver& solver,
                       const network::Solution& solution, std::span<float> row) {
    learns_ = true;
    const bool is_read = read(network, solver, solution, row);
    learns_ = false;
    return is_read;
}

/// With the meter, a diode may stand far from where it stood without; where it went in the network learned
/// from is where to begin.
bool Voltmeters::connect(int meter, network::Solver& solver, float& reading) {
    const int branch = first_meter_ + meter;
    const auto now = solver.tangents();
    const std::vector<network::Tangent> before(now.begin(), now.end());
    std::vector<network::Tangent> near = before;
    std::vector<network::Tangent>& moved = moved_by_[meter];
    for (const network::Tangent& known : moved)
        for (network::Tangent& line : near)
            if (line.branch == known.branch && conducts(line)) line = known;
    solver.set_conducts(branch, true);
    solver.set_tangents(near);
    const bool is_solved = solver.solve_into(with_meter_).has_value();
    if (is_solved) reading = static_cast<float>(kMeterOhm * with_meter_.current_a[at(branch)]);
    const auto then = solver.tangents();
    if (learns_ && is_solved)
        for (std::size_t i = 0; i < then.size(); ++i)
            if (then[i].at_v != before[i].at_v) moved.push_back(then[i]);
    solver.set_conducts(branch, false);
    solver.set_tangents(before);
    return is_solved;
}

}  // namespace halfsplit::diagnosis
