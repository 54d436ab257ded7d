#include "engine/network/newton.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/network/characteristic.h"
#include "engine/network/constants.h"

namespace halfsplit::network {

namespace {

/// Steps after which the quick way is given up. Of 20 000 random networks of every law 99.9 % took at
/// most 26.
constexpr int kQuickSteps = 40;
/// Steps after which the safe way is given up for the time being. Of the same networks 99 % took at most 80
/// by it alone.
constexpr int kSafeSteps = 100;
/// Rounds of the safe way and then the quick way again before there is held to be no operating point.
constexpr int kAlternations = 4;
/// Evaluations for the length of one safe step; halving alone would need no more than 60 to the last bit.
constexpr int kCrossingSteps = 200;

/// The part of a slope that a law may have moved by and keep its tangent: what is left of a slope's error
/// where run() has settled is less than that.
constexpr double kShareOfSlope = 1e-4;

/// The part of the residual allowed at a node that a single port may use up.
constexpr double kShareOfResidual = 0.01;

/// Where a function that rises from below 0 at 0 to above 0 at 1 crosses 0; from below, to within `close`:
/// regula falsi with halving (Illinois; Dowell & Jarratt, BIT 11, 1971).
template <class Rising>
double crossing(const Rising& value_at, double value_low, double value_high, double close) {
    double low = 0;
    double high = 1;
    for (int i = 0; i < kCrossingSteps; ++i) {
        const double middle = low + (high - low) * value_low / (value_low - value_high);
        const double value = value_at(middle);
        if (value <= 0 && value >= -close) return middle;
        if (value < 0) {
            low = middle;
            value_low = value;
            value_high /= 2;
        } else {
            high = middle;
            value_high = value;
            value_low /= 2;
        }
    }
    return low;
}

}  // namespace

Newton::Newton(std::span<const Branch> branches, Assembly& assembly, double slack)
    : branches_(branches), assembly_(assembly), slack_(slack), port_of_(branches.size(), -1) {
    for (int k = 0; k < assembly_.branches(); ++k) refresh(branches[at(k)], k);
}

void Newton::refresh(const Branch& branch, int index) {
    int& port = port_of_[at(index)];
    if (is_linear(branch.law)) {
        if (port >= 0) {
            port_of_[at(ports_.back().branch)] = port;
            ports_[at(port)] = ports_.back();
            ports_.pop_back();
            are_ports_others_ = true;
            port = -1;
        }
        const OperatingSlope line = characteristic(branch.law, 0);
        assembly_.set(index, branch.conducts ? Tie{line.slope_s, line.current_a} : Tie{});
        return;
    }
    if (port < 0) {
        port = static_cast<int>(ports_.size());
        ports_.push_back({.branch = index});
        are_ports_others_ = true;
        // More of them share what may be left over.
        if (warm_)
            for (Tangent& each : ports_) each.straight_v = 0;
        return linearise(ports_.back(), usual_voltage(branch.law));
    }
    Tangent& known = ports_[at(port)];
    const OperatingSlope here = branch.conducts ? characteristic(branch.law, known.at_v) : OperatingSlope{};
    known.straight_v = 0;
    if (!is_near(known, here)) put(known, known.at_v, here);
}

/// A law that has hardly moved keeps its tangent: run() looks at the current again in any case, and at the
/// slope, which potentials do not depend on but resistances do, only where the current moves.
bool Newton::is_near(const Tangent& port, const OperatingSlope& here) const {
    const double off_a = std::abs(here.current_a - port.current_a);
    const double off_s = std::abs(here.slope_s - port.slope_s);
    const double with_leakage_s = here.slope_s + kLeakageSiemens / 2;
    const bool is_off = here.slope_s == 0 || port.slope_s == 0;
    return !is_off && off_s <= kShareOfSlope * with_leakage_s && off_a <= allowed_a(here) &&
           off_a <= negligible_v() * with_leakage_s;
}

double Newton::allowed_a(const OperatingSlope& here) const {
    return slack_ * kShareOfResidual * (kResidualA + kResidualShare * std::abs(here.current_a));
}

/// What is both allowed_a() and, seen from the port, negligible_v().
double Newton::negligible_a(const OperatingSlope& here) const {
    return std::min(allowed_a(here), negligible_v() * (here.slope_s + kLeakageSiemens / 2));
}

double Newton::negligible_v() const {
    return slack_ * kPotentialToleranceV / static_cast<double>(ports_.size());
}

void Newton::linearise(Tangent& port, double at_v) {
    const Branch& branch = branches_[at(port.branch)];
    put(port, at_v, branch.conducts ? characteristic(branch.law, at_v) : OperatingSlope{});
}

void Newton::put(Tangent& port, double at_v, const OperatingSlope& here) {
    port = {port.branch, at_v, here.current_a, here.slope_s, 0};
    assembly_.set(port.branch, {here.slope_s, here.current_a - here.slope_s * at_v});
}

double Newton::voltage(int branch, std::span<const double> potential) const {
    const Assembly::Ends& ends = assembly_.ends(branch);
    return potential[at(ends.from)] - potential[at(ends.to)];
}

/// Bounds what one more step would move: a port's current is off its tangent by some amperes, and seen from
/// the port the network has at most the resistance of the port itself in parallel with the leakage of its two
/// nodes. True if that is little enough, in volts and in amperes; else linearises the ports where the
/// potentials now are. A port so little off that all could be so keeps its tangent: the next step then redoes
/// less of the elimination. One that has hardly moved is not looked at: it is off by less than with the
/// square of its way.
bool Newton::relinearise() {
    moved_.clear();
    double step_v = 0;
    double largest_v = -1;
    bool settled = true;
    for (const Tangent& port : ports_) {
        const Branch& branch = branches_[at(port.branch)];
        if (!branch.conducts) continue;
        const double asked_v = voltage(port.branch, assembly_.potential());
        const double moved_v = std::abs(asked_v - port.at_v);
        if (moved_v < port.straight_v) {
            const double share = moved_v / port.straight_v;
            step_v += share * share * negligible_v();
            continue;
        }
        const double tangent_a = port.current_a + port.slope_s * (asked_v - port.at_v);
        const double next_v = limited_voltage(branch.law, port.at_v, asked_v);
        const OperatingSlope here = characteristic(branch.law, next_v);
        const double off_a = std::abs(here.current_a - tangent_a);
        const double port_step_v = off_a / (here.slope_s + kLeakageSiemens / 2);
        const bool is_settled = next_v == asked_v && off_a <= allowed_a(here);
        if (!is_settled || port_step_v > negligible_v())
            moved_.push_back({port.branch, next_v, here.current_a, here.slope_s, 0});
        settled = settled && is_settled;
        step_v += port_step_v;
        if (port_step_v > largest_v) {
            largest_v = port_step_v;
            most_unsettled_ = port.branch;
        }
    }
    if (settled && step_v <= slack_ * kPotentialToleranceV) return true;
    for (const Tangent& tangent : moved_) {
        Tangent& port = ports_[at(port_of_[at(tangent.branch)])];
        const OperatingSlope there{tangent.current_a, tangent.slope_s};
        put(port, tangent.at_v, there);
        port.straight_v = straight_v(branches_[at(port.branch)].law, port.at_v, there, negligible_a(there));
    }
    return false;
}

bool Newton::settle_quickly() {
    for (int i = 0; i < kQuickSteps; ++i) {
        assembly_.solve();
        ++iterations_;
        if (relinearise()) return true;
    }
    return false;
}

/// The part that the straight lines and the leakage have in the slope of the co-content along a step: itself
/// a straight line over the fraction of the step.
Newton::AlongStep Newton::linear_part(std::span<const double> from, std::span<const double> to) const {
    AlongStep sum;
    for (int i = 0; i < assembly_.columns(); ++i) {
        const double move_v = to[at(i)] - from[at(i)];
        sum.start_w += kLeakageSiemens * from[at(i)] * move_v;
        sum.rise_w += kLeakageSiemens * move_v * move_v;
    }
    for (int k = 0; k < assembly_.branches(); ++k) {
        if (port_of_[at(k)] >= 0) continue;
        const double from_v = voltage(k, from);
        const double move_v = voltage(k, to) - from_v;
        const Tie& line = assembly_.line(k);
        sum.start_w += (line.conductance * from_v + line.source) * move_v;
        sum.rise_w += line.conductance * move_v * move_v;
    }
    return sum;
}

/// The slope of the co-content rises along the step from below 0 (Newton steps descend). Where it crosses 0
/// is found to a tenth of its first value: more would be wasted on a step. Stopping short of it is safe;
/// beyond it the co-content may have risen again, so the whole step is taken only if the slopes at its middle
/// and end bound it below its start. A first value that is not below 0 is rounding: the step is too small to
/// matter.
double Newton::fraction_to_least_co_content(std::span<const double> from, std::span<const double> to) const {
    const AlongStep linear = linear_part(from, to);
    const auto slope = [&](double fraction) {
        double sum_w = linear.start_w + fraction * linear.rise_w;
        for (const Tangent& port : ports_) {
            const Branch& branch = branches_[at(port.branch)];
            if (!branch.conducts) continue;
            const double from_v = voltage(port.branch, from);
            const double move_v = voltage(port.branch, to) - from_v;
            sum_w += characteristic(branch.law, from_v + fraction * move_v).current_a * move_v;
        }
        return sum_w;
    };
    const double first = slope(0);
    const double last = slope(1);
    if (first >= 0 || last <= 0 || slope(0.5) + last < 0) return 1;
    return crossing(slope, first, last, 0.1 * std::abs(first));
}

bool Newton::settle_safely() {
    std::vector<double> from(assembly_.potential().begin(), assembly_.potential().end());
    for (int i = 0; i < kSafeSteps; ++i) {
        for (Tangent& port : ports_) linearise(port, voltage(port.branch, from));
        const std::span<const double> to = assembly_.solve();
        ++iterations_;
        const double fraction = fraction_to_least_co_content(from, to);
        if (fraction == 1 && relinearise()) return true;
        for (std::size_t node = 0; node < from.size(); ++node)
            from[node] += fraction * (to[node] - from[node]);
    }
    return false;
}

/// Puts every port back to where a network from cold starts.
void Newton::restart() {
    for (Tangent& port : ports_) linearise(port, usual_voltage(branches_[at(port.branch)].law));
}

bool Newton::set_tangents(std::span<const Tangent> tangents) {
    if (tangents.size() != ports_.size()) return false;
    std::vector<char> is_given(port_of_.size(), 0);
    for (const Tangent& tangent : tangents) {
        const bool is_branch = tangent.branch >= 0 && tangent.branch < static_cast<int>(port_of_.size());
        if (!is_branch || port_of_[at(tangent.branch)] < 0 || is_given[at(tangent.branch)]) return false;
        is_given[at(tangent.branch)] = 1;
    }
    ports_.assign(tangents.begin(), tangents.end());
    are_ports_others_ = true;
    for (std::size_t i = 0; i < ports_.size(); ++i) {
        port_of_[at(ports_[i].branch)] = static_cast<int>(i);
        put(ports_[i], ports_[i].at_v, {ports_[i].current_a, ports_[i].slope_s});
    }
    warm_ = true;
    return true;
}

void Newton::remember() {
    assembly_.remember();
    remembered_ = {ports_, port_of_, warm_};
    are_ports_others_ = false;
}

void Newton::go_back() {
    assembly_.go_back();
    ports_ = remembered_.ports;
    if (are_ports_others_) {
        port_of_ = remembered_.port_of;
        are_ports_others_ = false;
    }
    warm_ = remembered_.warm;
}

bool Newton::run() {
    iterations_ = 0;
    bool settled = settle_quickly();
    if (!settled && warm_) {
        restart();
        settled = settle_quickly();
    }
    // Each way starts where the other gave up, which is nearer than where it began.
    for (int i = 0; i < kAlternations && !settled; ++i) settled = settle_safely() || settle_quickly();
    warm_ = settled;
    if (!settled) restart();
    return settled;
}

bool Newton::run_safely() {
    iterations_ = 0;
    return settle_safely();
}

}  // namespace halfsplit::network
