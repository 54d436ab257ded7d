#include "engine/diagnosis/dictionary/voltmeters.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/instruments/voltmeter.h"

namespace halfsplit::diagnosis {

namespace {

/// If a change takes no more than this share off the resistance of a diode and of a meter's points, it has
/// brought the two no nearer to each other than the same share of both: some ten ohm of 100 Mohm, in which a
/// meter's microampere is nothing.
constexpr double kSameShare = 1e-7;
/// A diode's curve is all but straight over this much of what a meter finds across a gap.
constexpr double kSameV = 0.02;
/// But what the diode itself stands at counts in full.
constexpr double kSamePortV = 1e-7;

bool is_same(double ohm, double known_ohm) {
    return std::abs(ohm - known_ohm) <= kSameShare * known_ohm;
}

}  // namespace

bool Voltmeters::read(const network::Network& network, network::Solver& solver,
                      const network::Solution& solution, std::span<float> row) {
    MeterDoubt doubt(network, places_.voltages, first_meter_, solver, solution);
    const bool has_same_ports = !learns_ && are_known(doubt.ports());
    doubtful_.clear();
    for (int meter = 0; meter < static_cast<int>(places_.voltages.size()); ++meter) {
        const FindingPlaces::Voltage& voltage = places_.voltages[at(meter)];
        const double ohm = doubt.ohm(meter);
        const double open_v = solution.potential_at(voltage.at) - solution.potential_at(voltage.against);
        row[at(voltage.finding)] =
            static_cast<float>(open_v * instruments::kVoltmeterOhm / (instruments::kVoltmeterOhm + ohm));
        if (!doubt.is_possible(meter, open_v)) continue;
        const auto recalled = has_same_ports ? recall(meter, open_v, ohm, doubt.ports()) : std::nullopt;
        if (recalled)
            row[at(voltage.finding)] = static_cast<float>(*recalled);
        else if (doubt.is_justified(meter, open_v))
            doubtful_.push_back(meter);
        if (learns_) remember(meter, open_v, ohm);
    }
    connected_ += static_cast<int>(doubtful_.size());
    for (const int meter : doubtful_)
        if (!connect(meter, solver, row[at(places_.voltages[at(meter)].finding)])) return false;
    return true;
}

bool Voltmeters::learn(const network::Network& network, network::Solver& solver,
                       const network::Solution& solution, std::span<float> row) {
    known_ports_.clear();
    const MeterDoubt doubt(network, places_.voltages, first_meter_, solver, solution);
    for (const MeterDoubt::Port& port : doubt.ports())
        known_ports_.push_back({port.branch, *port.law, port.at_v, port.ohm});
    learns_ = true;
    const bool is_read = read(network, solver, solution, row);
    learns_ = false;
    return is_read;
}

bool Voltmeters::are_known(const std::vector<MeterDoubt::Port>& ports) const {
    return std::ranges::equal(ports, known_ports_, [](const MeterDoubt::Port& port, const KnownPort& known) {
        return port.branch == known.branch && std::abs(port.at_v - known.at_v) <= kSameV &&
               is_same(port.ohm, known.ohm) && *port.law == known.law;
    });
}

/// Where the same diodes see the same network, the meter reads what it read, but for what the open voltage
/// has moved.
std::optional<double> Voltmeters::recall(int meter, double open_v, double ohm,
                                         const std::vector<MeterDoubt::Port>& ports) const {
    const auto found = known_.find(meter);
    if (found == known_.end()) return std::nullopt;
    const Known& known = found->second;
    if (!is_same(ohm, known.ohm) || std::abs(open_v - known.open_v) > kSameV) return std::nullopt;
    if (!known.was_connected) return open_v * instruments::kVoltmeterOhm / (instruments::kVoltmeterOhm + ohm);
    for (std::size_t i = 0; i < ports.size(); ++i) {
        const bool is_moved =
            std::ranges::find(known.moved, ports[i].branch, &network::Tangent::branch) != known.moved.end();
        if (is_moved && std::abs(ports[i].at_v - known_ports_[i].at_v) > kSamePortV) return std::nullopt;
    }
    return known.reading_v + known.volts_per_volt * (open_v - known.open_v);
}

void Voltmeters::remember(int meter, double open_v, double ohm) {
    const bool is_connected = !doubtful_.empty() && doubtful_.back() == meter;
    known_[meter] = {open_v, ohm, is_connected, 0, 0, {}};
}

/// With the meter, a diode may stand far from where it stood without; where it went in the network learned
/// from is where to begin.
bool Voltmeters::connect(int meter, network::Solver& solver, float& reading) {
    const int branch = first_meter_ + meter;
    const auto now = solver.tangents();
    const std::vector<network::Tangent> before(now.begin(), now.end());
    std::vector<network::Tangent> near = before;
    const auto known = known_.find(meter);
    if (known != known_.end())
        for (const network::Tangent& moved : known->second.moved)
            for (network::Tangent& line : near)
                if (line.branch == moved.branch && conducts(line)) line = moved;
    solver.set_conducts(branch, true);
    solver.set_tangents(near);
    const bool is_solved = solver.solve_into(with_meter_).has_value();
    const double reading_v = is_solved ? instruments::kVoltmeterOhm * with_meter_.current_a[at(branch)] : 0;
    if (is_solved) reading = static_cast<float>(reading_v);
    if (learns_ && is_solved) {
        double ohm = 0;  // of the meter and all that is beside it
        solver.resistances({&branch, 1}, {&ohm, 1});
        known->second.reading_v = reading_v;
        known->second.volts_per_volt = 1 - ohm / instruments::kVoltmeterOhm;
        const auto then = solver.tangents();
        for (std::size_t i = 0; i < then.size(); ++i)
            if (then[i].at_v != before[i].at_v) known->second.moved.push_back(then[i]);
    }
    solver.set_conducts(branch, false);
    solver.set_tangents(before);
    return is_solved;
}

}  // namespace halfsplit::diagnosis
