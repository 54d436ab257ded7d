#include "engine/network/nodal/balance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "engine/base/index.h"
#include "engine/network/nodal/constants.h"

namespace halfsplit::network {

namespace {

/// Neighbouring branches of a circuit meet at nodes, and adding to what was only just stored has to wait for
/// it. Taking branches from this many places of the list by turns hides the wait.
constexpr int kStreams = 4;

/// The share of the power turned over that rounding may lose.
constexpr double kEnergyShare = 1e-12;

/// What the roundings in a potential may be worth, relative.
constexpr double kLastBits = 4 * std::numeric_limits<double>::epsilon();

/// Per column the residual allowed.
std::vector<double> allowed_a(const Assembly& assembly, std::span<const double> current) {
    std::vector<double> largest_a(at(assembly.columns()) + 1);
    std::vector<double> bits_a(largest_a.size());
    for (int k = 0; k < assembly.branches(); ++k) {
        const auto [from, to] = assembly.ends(k);
        if (from == to) continue;
        const double larger_v =
            std::max(std::abs(assembly.potential()[at(from)]), std::abs(assembly.potential()[at(to)]));
        for (const int end : {from, to}) {
            largest_a[at(end)] = std::max(largest_a[at(end)], std::abs(current[at(k)]));
            bits_a[at(end)] += kLastBits * assembly.line(k).conductance * larger_v;
        }
    }
    for (std::size_t i = 0; i < largest_a.size(); ++i)
        bits_a[i] += kResidualA + kResidualShare * largest_a[i];
    return bits_a;
}

}  // namespace

BalanceCheck::Power BalanceCheck::add_branches(const Assembly& assembly, std::span<double> current) {
    const double* potential = assembly.potential().data();
    double* sum_a = sum_a_.data();
    std::array<Power, kStreams> power{};
    const auto add = [&assembly, potential, sum_a, current](int k, Power& sum) {
        if (!assembly.carries(k)) {
            current[at(k)] = 0;
            return;
        }
        const Tie& line = assembly.line(k);
        const auto [from, to] = assembly.ends(k);
        const double voltage_v = potential[from] - potential[to];
        const double current_a = line.conductance * voltage_v + line.source;
        const double branch_w = current_a * voltage_v;
        current[at(k)] = current_a;
        sum.balance_w += branch_w;
        sum.turned_over_w += std::abs(branch_w);
        sum_a[from] += current_a;
        sum_a[to] -= current_a;
    };
    const int branches = assembly.branches();
    const int share = branches / kStreams;
    for (int k = 0; k < share; ++k)
        for (int stream = 0; stream < kStreams; ++stream) add(stream * share + k, power[at(stream)]);
    for (int k = kStreams * share; k < branches; ++k) add(k, power[0]);
    Power total;
    for (const Power& of : power) {
        total.balance_w += of.balance_w;
        total.turned_over_w += of.turned_over_w;
    }
    return total;
}

void BalanceCheck::look_closer(const Assembly& assembly, std::span<const double> current,
                               Balance& balance) const {
    const std::vector<double> allowed = allowed_a(assembly, current);
    double worst_ratio = 1;
    for (int i = 0; i < assembly.columns(); ++i) {
        const double residual_a = std::abs(sum_a_[at(i)]);
        balance.allowed_mismatch_w += std::abs(assembly.potential()[at(i)]) * allowed[at(i)];
        const double ratio = residual_a / allowed[at(i)];
        if (ratio <= worst_ratio || std::isnan(worst_ratio)) continue;
        worst_ratio = ratio;
        balance.worst_column = i;
        balance.excess_residual_a = residual_a;
    }
}

BalanceCheck::Nodes BalanceCheck::add_leakage(std::span<const double> potential) {
    std::array<Nodes, kStreams> parts{};
    double* residual = sum_a_.data();
    const auto add = [&](std::size_t i, Nodes& sum) {
        const double v = potential[i];
        const double residual_a = std::abs(residual[i] += kLeakageSiemens * v);
        sum.squares_v2 += v * v;
        sum.potentials_v += std::abs(v);
        sum.worst_a = std::max(sum.worst_a, residual_a);
    };
    const std::size_t in_turns = potential.size() - potential.size() % kStreams;
    for (std::size_t i = 0; i < in_turns; i += kStreams)
        for (std::size_t stream = 0; stream < kStreams; ++stream) add(i + stream, parts[stream]);
    for (std::size_t i = in_turns; i < potential.size(); ++i) add(i, parts[0]);
    Nodes total;
    for (const Nodes& of : parts) {
        total.squares_v2 += of.squares_v2;
        total.potentials_v += of.potentials_v;
        total.worst_a = std::max(total.worst_a, of.worst_a);
    }
    return total;
}

/// Nearly always each residual is far below kResidualA alone; only if not is there a need to know what is
/// allowed.
Balance BalanceCheck::operator()(const Assembly& assembly, std::span<double> current) {
    const std::span<const double> potential = assembly.potential();
    sum_a_.assign(potential.size(), 0);
    const Power branches = add_branches(assembly, current);
    const Nodes nodes = add_leakage(potential.first(potential.size() - 1));
    Balance balance;
    balance.worst_residual_a = nodes.worst_a;
    balance.energy_mismatch_w = std::abs(branches.balance_w + kLeakageSiemens * nodes.squares_v2);
    balance.allowed_mismatch_w = kResidualA * nodes.potentials_v + kEnergyShare * branches.turned_over_w;
    const bool are_numbers = std::isfinite(nodes.potentials_v);
    if (!are_numbers || nodes.worst_a > kResidualA) look_closer(assembly, current, balance);
    return balance;
}

}  // namespace halfsplit::network
