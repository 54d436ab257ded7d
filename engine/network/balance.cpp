#include "engine/network/balance.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "engine/network/constants.h"

namespace halfsplit::network {

namespace {

constexpr auto at = EliminationPattern::at;

struct NodeCurrents {
    double sum_a = 0;
    double largest_a = 0;
};

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

}  // namespace

Balance check_balance(const Assembly& assembly, std::span<const double> current) {
    const std::span<const double> potential = assembly.potential();
    std::vector<NodeCurrents> nodes(at(assembly.columns()) + 1);
    double power_w = 0;
    double turned_over_w = 0;
    for (int k = 0; k < assembly.branches(); ++k) {
        const auto [from, to] = assembly.ends(k);
        const double current_a = current[at(k)];
        const double branch_w = current_a * (potential[at(from)] - potential[at(to)]);
        power_w += branch_w;
        turned_over_w += std::abs(branch_w);
        nodes[at(from)].sum_a += current_a;
        nodes[at(to)].sum_a -= current_a;
        nodes[at(from)].largest_a = std::max(nodes[at(from)].largest_a, std::abs(current_a));
        nodes[at(to)].largest_a = std::max(nodes[at(to)].largest_a, std::abs(current_a));
    }
    Balance balance;
    double worst_ratio = 1;
    std::vector<double> bits_a;
    for (int i = 0; i < assembly.columns(); ++i) {
        const double v = potential[at(i)];
        const double residual_a = std::abs(nodes[at(i)].sum_a + kLeakageSiemens * v);
        double allowed_a = kResidualA + kResidualShare * nodes[at(i)].largest_a;
        power_w += kLeakageSiemens * v * v;
        balance.worst_residual_a = std::max(balance.worst_residual_a, residual_a);
        if (!(residual_a <= allowed_a)) {
            if (bits_a.empty()) bits_a = rounding_a(assembly);
            allowed_a += bits_a[at(i)];
            if (!(residual_a <= worst_ratio * allowed_a)) {
                worst_ratio = residual_a / allowed_a;
                balance.worst_column = i;
                balance.excess_residual_a = residual_a;
            }
        }
        balance.allowed_mismatch_w += std::abs(v) * allowed_a;
    }
    balance.energy_mismatch_w = std::abs(power_w);
    balance.allowed_mismatch_w += kEnergyShare * turned_over_w;
    return balance;
}

}  // namespace halfsplit::network
