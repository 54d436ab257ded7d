#include "engine/diagnosis/limits/scatter.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"

namespace halfsplit::diagnosis {

namespace {

constexpr double kPercent = 100;
/// A resistance that comes out below this share of its nominal value is no wire any more.
constexpr double kLeastShare = 0.01;

double sigma_of(double nominal, double tolerance_percent) {
    return std::abs(nominal) * tolerance_percent / kPercent / kMiddle99;
}

}  // namespace

std::vector<Scatter> scatter_of(const model::Circuit& circuit) {
    std::vector<Scatter> all;
    for (std::size_t part = 0; part < circuit.parts.size(); ++part) {
        const model::Part& each = circuit.parts[part];
        for (std::size_t number = 0; number < each.numbers.size(); ++number) {
            const double sigma = sigma_of(each.numbers[number], each.tolerance_percent[number]);
            if (sigma > 0)
                all.push_back({.part = static_cast<int>(part),
                               .number = static_cast<int>(number),
                               .nominal = each.numbers[number],
                               .sigma = sigma});
        }
    }
    for (std::size_t wire = 0; wire < circuit.wires.size(); ++wire) {
        const double sigma = sigma_of(1, circuit.wires[wire].tolerance_percent);
        const bool is_link = circuit.wires[wire].ohm.value_or(1) == 0;
        if (sigma > 0 && !is_link)
            all.push_back({.wire = static_cast<int>(wire), .nominal = 1, .sigma = sigma});
    }
    return all;
}

double scattered(const model::Circuit& circuit, const Scatter& scatter, double sigmas) {
    const double value = scatter.nominal + sigmas * scatter.sigma;
    if (scatter.part < 0) return std::max(value, kLeastShare);
    const model::PartKind& kind = *circuit.parts[at(scatter.part)].kind;
    const model::NumberSpec& spec = kind.numbers[at(scatter.number)];
    return std::clamp(value, spec.low, spec.high);
}

}  // namespace halfsplit::diagnosis
