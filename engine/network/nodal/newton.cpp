#include "engine/network/nodal/newton.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/index.h"
#include "engine/network/nodal/characteristic.h"
#include "engine/network/nodal/constants.h"

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

/// The part of its slope that a line may be off the law where something is tried with a slack, and how many
/// laws have to move at once for that to pay. Measured on 5 000 nodes: 0.5 to 4 % and 6 to 48 laws are all
/// within 4 % of the quickest.
constexpr double kShareOfLine = 0.02;
constexpr std::size_t kManyMoved = 16;

constexpr double kEverywhereV = std::numeric_limits<double>::infinity();

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
            if (!assembly_.is_watched(index)) --unwatched_;
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
        if (!assembly_.is_watched(index)) ++unwatched_;
        // More of them share what may be left over.
        if (warm_)
            for (Tangent& each : ports_) each.straight_v = 0;
        return linearise(ports_.back(), usual_voltage(branch.law));
    }
    Tangent& known = ports_[at(port)];
    const OperatingSlope here = branch.conducts ? characteristic(branch.law, known.at_v) : OperatingSlope{};
    known.straight_v = branch.conducts ? 0 : kEverywhereV;
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

/// Of a branch that does not conduct the line is the law.
void Newton::put(Tangent& port, double at_v, const OperatingSlope& here) {
    const double straight_v = branches_[at(port.branch)].conducts ? 0 : kEverywhereV;
    port = {port.branch, at_v, here.current_a, here.slope_s, straight_v};
    assembly_.set(port.branch, {here.slope_s, here.current_a - here.slope_s * at_v});
}

void Newton::find_straight(Tangent& port) const {
    const Branch& branch = branches_[at(port.branch)];
    const OperatingSlope there{port.current_a, port.slope_s};
    if (branch.conducts) port.straight_v = straight_v(branch.law, port.at_v, there, negligible_a(there));
}

double Newton::voltage(int branch, std::span<const double> potential) const {
    const Assembly::Ends& ends = assembly_.ends(branch);
    return potential[at(ends.from)] - potential[at(ends.to)];
}

/// Seen from a port the network has at most the resistance of the port itself in parallel with the leakage of
/// its two nodes.
void Newton::weigh(int branch, double off_a, double slope_s, bool is_settled) {
    const double step_v = off_a / (slope_s + kLeakageSiemens / 2);
    unsettled_.is_settled = unsettled_.is_settled && is_settled;
    unsettled_.step_v += step_v;
    if (step_v <= unsettled_.largest_v) return;
    unsettled_.largest_v = step_v;
    most_unsettled_ = branch;
}

/// How far a port's current is off its line. A port so little off that all could be so keeps that: the next
/// step then redoes less of the elimination.
void Newton::look_at(const Tangent& port, double asked_v, bool is_straight) {
    const Branch& branch = branches_[at(port.branch)];
    if (!branch.conducts) return;
    const Tie& line = assembly_.line(port.branch);
    const double tangent_a = port.current_a + port.slope_s * (asked_v - port.at_v);
    const double line_a = are_lines_others_ ? line.conductance * asked_v + line.source : tangent_a;
    const double next_v = is_straight ? asked_v : limited_voltage(branch.law, port.at_v, asked_v);
    const OperatingSlope here =
        is_straight ? OperatingSlope{tangent_a, port.slope_s} : characteristic(branch.law, next_v);
    const double off_a = std::abs(here.current_a - line_a);
    const bool is_settled = next_v == asked_v && off_a <= allowed_a(here);
    weigh(port.branch, off_a, here.slope_s, is_settled);
    if (is_settled && off_a <= unsettled_.negligible_v * (here.slope_s + kLeakageSiemens / 2)) return;
    (is_straight ? unsettled_.slid : unsettled_.moved)
        .push_back({port.branch, next_v, here.current_a, here.slope_s, 0});
}

/// Bounds what one more step would move. True if that is little enough, in volts and in amperes; else
/// linearises the ports where the potentials now are. The law of a port that has hardly moved is not looked
/// at: it is off its tangent by less than with the square of its way.
bool Newton::relinearise() {
    if (ports_.empty()) return true;
    unsettled_.negligible_v = negligible_v();
    unsettled_.step_v = 0;
    unsettled_.largest_v = -1;
    unsettled_.is_settled = true;
    unsettled_.moved.clear();
    unsettled_.slid.clear();
    const std::span<const double> potential = assembly_.potential();
    double straight_shares = 0;
    for (const Tangent& port : ports_) {
        const double asked_v = voltage(port.branch, potential);
        const double moved_v = std::abs(asked_v - port.at_v);
        const bool is_straight = moved_v < port.straight_v;
        const double share = is_straight ? moved_v / port.straight_v : 0;
        straight_shares += share * share;
        if (!is_straight || are_lines_others_) look_at(port, asked_v, is_straight);
    }
    unsettled_.step_v += straight_shares * unsettled_.negligible_v;
    if (unsettled_.is_settled && unsettled_.step_v <= slack_ * kPotentialToleranceV) return true;
    move();
    return false;
}

/// Where something is tried with a slack, and many laws move a little, their lines keep their slopes and only
/// go through where the laws now are: that needs no elimination, and the next step is off by the difference
/// of the slopes, a few hundredths, of what this one moves.
bool Newton::may_slide(const Tangent& to) const {
    const double line_s = assembly_.line(to.branch).conductance;
    return std::abs(to.slope_s - line_s) <= kShareOfLine * line_s;
}

void Newton::move() {
    const bool can_slide = remembers_ && slack_ > 1 && unwatched_ == 0 &&
                           unsettled_.moved.size() + unsettled_.slid.size() >= kManyMoved;
    for (const Tangent& to : unsettled_.moved) {
        Tangent& port = ports_[at(port_of_[at(to.branch)])];
        const OperatingSlope there{to.current_a, to.slope_s};
        if (can_slide && may_slide(to)) {
            port = to;
            unsettled_.slid.push_back(to);
        } else {
            put(port, to.at_v, there);
        }
        find_straight(port);
    }
    for (const Tangent& to : unsettled_.slid) {
        const double line_s = assembly_.line(to.branch).conductance;
        assembly_.shift_source(to.branch, to.current_a - line_s * to.at_v);
        are_lines_others_ = true;
    }
}

/// What decides of the ports is solved at each step, and the rest in the end.
bool Newton::settle_quickly() {
    const bool in_parts = unwatched_ == 0;
    for (int i = 0; i < kQuickSteps; ++i) {
        in_parts ? assembly_.solve_watched() : assembly_.solve();
        ++iterations_;
        if (!relinearise()) continue;
        if (in_parts) assembly_.solve_others();
        return true;
    }
    assembly_.solve();
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

/// Tangents where the potentials now are serve longest whichever way these move.
void Newton::remember() {
    if (warm_)
        for (Tangent& port : ports_) {
            linearise(port, voltage(port.branch, assembly_.potential()));
            find_straight(port);
        }
    assembly_.remember();
    remembered_ = {ports_, port_of_, warm_, are_lines_others_, unwatched_};
    remembers_ = true;
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
    are_lines_others_ = remembered_.are_lines_others;
    unwatched_ = remembered_.unwatched;
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
