#include "engine/network/balance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "engine/network/constants.h"

namespace halfsplit::network {

namespace {

constexpr auto at = EliminationPattern::at;

/// Neighbouring branches of a circuit meet at nodes, and adding to what was only just stored has to wait for
/// it. Taking branches from this many places of the list by turns hides the wait.
constexpr int kStreams = 4;

/// The share of the power turned over that rounding may lose.
constexpr double kEnergyShare = 1e-12;

/// Per column the current that the last bits of the potentials stand for. Rarely asked for.
std::vector<double> rounding_a(const Assembly& assembly) {
    std::vector<double> sum_a(at(assembly.columns()) + 1);
    for (int k = 0; k < assembly.branches(); ++k) {
        const auto [from, to] = assembly.ends(k);
        if (from == to) continue;
        const double from_v = std::abs(assembly.potential()[at(from)]);
        const double to_v = std::abs(assembly.potential()[at(to)]);
        const double bits_a = 4 * std::numeric_limits<double>::epsilon() * assembly.line(k).conductance *
                              std::max(from_v, to_v);
        sum_a[at(from)] += bits_a;
        sum_a[at(to)] += bits_a;
    }
    return sum_a;
}

double allowed_a(double largest_a) {
    return kResidualA + kResidualShare * largest_a;
}

}  // namespace

inline void BalanceCheck::NodeCurrents::add(double current_a) {
    const double magnitude_a = std::abs(current_a);
    sum_a += current_a;
    if (!(magnitude_a <= largest_a)) largest_a = magnitude_a;
}

BalanceCheck::Power BalanceCheck::add_branches(const Assembly& assembly, std::span<const double> current) {
    const double* potential = assembly.potential().data();
    std::array<Power, kStreams> power{};
    const auto add = [&](int k, Power& sum) {
        const auto [from, to] = assembly.ends(k);
        const double current_a = current[at(k)];
        const double branch_w = current_a * (potential[from] - potential[to]);
        sum.balance_w += branch_w;
        sum.turned_over_w += std::abs(branch_w);
        nodes_[at(from)].add(current_a);
        nodes_[at(to)].add(-current_a);
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

/// Power of the leakage, and the power that the residuals allowed at the nodes may stand for.
BalanceCheck::Power BalanceCheck::add_leakage(std::span<const double> potential) {
    Power total;
    for (std::size_t i = 0; i + 1 < potential.size(); ++i) {
        const double v = potential[i];
        nodes_[i].sum_a += kLeakageSiemens * v;
        total.balance_w += kLeakageSiemens * v * v;
        total.turned_over_w += std::abs(v) * allowed_a(nodes_[i].largest_a);
    }
    return total;
}

/// Counts the last bits of the potentials as allowed too, and names the worst node if that is not enough.
void BalanceCheck::look_closer(const Assembly& assembly, Balance& balance) const {
    const std::vector<double> bits_a = rounding_a(assembly);
    double worst_ratio = 1;
    for (int i = 0; i < assembly.columns(); ++i) {
        const double residual_a = std::abs(nodes_[at(i)].sum_a);
        balance.allowed_mismatch_w += std::abs(assembly.potential()[at(i)]) * bits_a[at(i)];
        const double ratio = residual_a / (allowed_a(nodes_[at(i)].largest_a) + bits_a[at(i)]);
        if (ratio <= worst_ratio || std::isnan(worst_ratio)) continue;
        worst_ratio = ratio;
        balance.worst_column = i;
        balance.excess_residual_a = residual_a;
    }
}

Balance BalanceCheck::operator()(const Assembly& assembly, std::span<const double> current) {
    nodes_.assign(at(assembly.columns()) + 1, {});
    const Power branches = add_branches(assembly, current);
    const Power leakage = add_leakage(assembly.potential());
    double worst_a = 0;
    bool all_within = true;
    for (std::size_t i = 0; i + 1 < nodes_.size(); ++i) {
        const double residual_a = std::abs(nodes_[i].sum_a);
        worst_a = std::max(worst_a, residual_a);
        all_within = all_within && residual_a <= allowed_a(nodes_[i].largest_a);
    }
    Balance balance;
    balance.worst_residual_a = worst_a;
    balance.energy_mismatch_w = std::abs(branches.balance_w + leakage.balance_w);
    balance.allowed_mismatch_w = leakage.turned_over_w + kEnergyShare * branches.turned_over_w;
    if (!all_within) look_closer(assembly, balance);
    return balance;
}

}  // namespace halfsplit::network
