#include "engine/diagnosis/suspects/spread.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "engine/diagnosis/dictionary/finding_places.h"
#include "engine/diagnosis/limits/limits.h"
#include "engine/diagnosis/limits/scatter.h"
#include "engine/simulation/settle.h"

namespace halfsplit::diagnosis {
namespace {

/// A voltage to find the limits of: a finding's own, or the drop along the wire whose current it is.
struct Observed {
    std::vector<Observation> observations;
    std::vector<int> findings;  ///< whose they are
    std::vector<int> wires;     ///< of currents; -1
};

class ObservedBuilder {
  public:
    ObservedBuilder(const model::Circuit& circuit, const simulation::Settled& settled)
        : circuit_(circuit), settled_(settled) {}

    /// All voltages but those that nothing drives, which have no limits, and all currents.
    Observed of(const std::vector<Finding>& findings) {
        for (const auto& each : places_of(circuit_, findings, settled_.network).voltages)
            add({each.at, each.against}, each.finding, -1);
        for (int finding = 0; finding < static_cast<int>(findings.size()); ++finding) {
            if (findings[at(finding)].kind != Finding::Kind::current) continue;
            const model::Wire* wire = circuit_.find_wire(findings[at(finding)].at);
            if (wire != nullptr)
                add({node_of(wire->from), node_of(wire->to)}, finding,
                    static_cast<int>(wire - circuit_.wires.data()));
        }
        return std::move(observed_);
    }

  private:
    void add(Observation observation, int finding, int wire) {
        const auto is_driven = [this](int node) {
            return node == network::kBody || !settled_.point.floating[at(node)];
        };
        if (observation.at == observation.against || !is_driven(observation.at) ||
            !is_driven(observation.against))
            return;
        observed_.observations.push_back(observation);
        observed_.findings.push_back(finding);
        observed_.wires.push_back(wire);
    }

    int node_of(model::PinRef pin) const {
        const auto found = settled_.network.point_nodes.find(circuit_.point_name(pin));
        return found == settled_.network.point_nodes.end() ? network::kBody : found->second;
    }

    const model::Circuit& circuit_;
    const simulation::Settled& settled_;
    Observed observed_;
};

double sigma_of(const Limits& limits) {
    const double sigma = (limits.high_v - limits.low_v) / 2 / kMiddle99;
    return std::isfinite(sigma) ? sigma : 0;
}

/// What of the relative scatter of a wire's drop is the current's, and not the wire's own resistance: a wire
/// is a small part of its circuit, so the two add up by squares.
double current_share(const Limits& drop, const model::Wire& wire) {
    constexpr double kPercent = 100;
    constexpr double kMost = 0.5;
    if (drop.nominal_v == 0) return 0;
    const double all = sigma_of(drop) / std::abs(drop.nominal_v);
    const double own = wire.tolerance_percent / kPercent / kMiddle99;
    return std::min(std::sqrt(std::max(all * all - own * own, 0.0)), kMost);
}

tl::expected<std::vector<float>, Diagnostics> spread_in(const model::Circuit& circuit,
                                                        const Dictionary& dictionary, int state,
                                                        const Assumptions& assumptions) {
    const model::OperatingState* steps = circuit.find_state(dictionary.states[at(state)]);
    if (steps == nullptr) throw std::invalid_argument("a dictionary of another circuit");
    const auto settled = simulation::settle(circuit, {}, steps->steps);
    if (!settled) return tl::unexpected(settled.error());
    const Observed observed = ObservedBuilder(circuit, *settled).of(dictionary.findings);
    const auto found = limits_in_state(circuit, *settled, observed.observations);
    if (!found) return tl::unexpected(found.error());

    std::vector<float> sigma(dictionary.findings.size(), 0.0F);
    const auto current = [&](int finding) { return std::abs(dictionary.value(state, 0, finding)); };
    for (int finding = 0; finding < static_cast<int>(sigma.size()); ++finding)
        if (dictionary.findings[at(finding)].kind == Finding::Kind::current)
            sigma[at(finding)] = static_cast<float>(assumptions.current_scatter_share * current(finding));
    for (std::size_t i = 0; i < sigma.size(); ++i)
        if (dictionary.does_pulse(state, static_cast<int>(i)) &&
            dictionary.findings[i].kind == Finding::Kind::voltage)
            sigma[i] = static_cast<float>(assumptions.pulse_scatter_share *
                                          std::abs(dictionary.value(state, 0, static_cast<int>(i))));
    for (std::size_t i = 0; i < observed.findings.size(); ++i) {
        const int finding = observed.findings[i];
        const int wire = observed.wires[i];
        const double found_sigma =
            wire < 0 ? sigma_of(found->limits[i])
                     : current(finding) * current_share(found->limits[i], circuit.wires[at(wire)]);
        sigma[at(finding)] = std::max(sigma[at(finding)], static_cast<float>(found_sigma));
    }
    return sigma;
}

}  // namespace

Spread equal_spread(const Dictionary& dictionary, double sigma) {
    Spread spread{static_cast<int>(dictionary.findings.size()), {}};
    for (std::size_t state = 0; state < dictionary.states.size(); ++state)
        for (const Finding& finding : dictionary.findings)
            spread.sigma.push_back(finding.kind == Finding::Kind::sign ? 0.0F : static_cast<float>(sigma));
    return spread;
}

tl::expected<Spread, Diagnostics> spread_of(const model::Circuit& circuit, const Dictionary& dictionary,
                                            const Assumptions& assumptions) {
    Spread spread{static_cast<int>(dictionary.findings.size()), {}};
    for (int state = 0; state < static_cast<int>(dictionary.states.size()); ++state) {
        const auto row = spread_in(circuit, dictionary, state, assumptions);
        if (!row) return tl::unexpected(row.error());
        spread.sigma.insert(spread.sigma.end(), row->begin(), row->end());
    }
    return spread;
}

}  // namespace halfsplit::diagnosis
