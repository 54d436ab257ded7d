#include "engine/diagnosis/suspects/spread.h"

#include <cmath>
#include <stdexcept>

#include "engine/diagnosis/dictionary/finding_places.h"
#include "engine/diagnosis/limits/limits.h"
#include "engine/diagnosis/limits/scatter.h"
#include "engine/simulation/settle.h"

namespace halfsplit::diagnosis {
namespace {

struct Observed {
    std::vector<Observation> observations;
    std::vector<int> findings;  ///< whose they are
};

/// All voltages but those that nothing drives, which have no limits.
Observed observations_of(const model::Circuit& circuit, const Dictionary& dictionary,
                         const simulation::Settled& settled) {
    const auto is_driven = [&settled](int node) {
        return node == network::kBody || !settled.point.floating[at(node)];
    };
    Observed observed;
    for (const auto& each : places_of(circuit, dictionary.findings, settled.network).voltages) {
        if (each.at == each.against || !is_driven(each.at) || !is_driven(each.against)) continue;
        observed.observations.push_back({each.at, each.against});
        observed.findings.push_back(each.finding);
    }
    return observed;
}

float sigma_of(const Limits& limits) {
    const double sigma = (limits.high_v - limits.low_v) / 2 / kMiddle99;
    return std::isfinite(sigma) ? static_cast<float>(sigma) : 0.0F;
}

tl::expected<std::vector<float>, Diagnostics> spread_in(const model::Circuit& circuit,
                                                        const Dictionary& dictionary, int state,
                                                        const Assumptions& assumptions) {
    const model::OperatingState* steps = circuit.find_state(dictionary.states[at(state)]);
    if (steps == nullptr) throw std::invalid_argument("a dictionary of another circuit");
    const auto settled = simulation::settle(circuit, {}, steps->steps);
    if (!settled) return tl::unexpected(settled.error());
    const Observed observed = observations_of(circuit, dictionary, *settled);
    const auto found = limits_in_state(circuit, *settled, observed.observations);
    if (!found) return tl::unexpected(found.error());

    std::vector<float> sigma(dictionary.findings.size(), 0.0F);
    for (std::size_t i = 0; i < observed.findings.size(); ++i)
        sigma[at(observed.findings[i])] = sigma_of(found->limits[i]);
    for (int finding = 0; finding < static_cast<int>(sigma.size()); ++finding)
        if (dictionary.findings[at(finding)].kind == Finding::Kind::current)
            sigma[at(finding)] = static_cast<float>(assumptions.current_scatter_share *
                                                    std::abs(dictionary.value(state, 0, finding)));
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
