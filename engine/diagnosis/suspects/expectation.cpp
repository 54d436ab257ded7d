#include "engine/diagnosis/suspects/expectation.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/diagnosis/limits/scatter.h"

namespace halfsplit::diagnosis {
namespace {

int sign_number(double value) {
    return std::clamp(static_cast<int>(std::lround(value)), 0, 3);
}

double log_normal_density(double value, const Expectation& expected) {
    const double off = (value - expected.mean) / expected.sigma;
    return -0.5 * off * off - std::log(expected.sigma * std::sqrt(2 * std::numbers::pi));
}

}  // namespace

double meter_variance(const Meter& meter, double shown) {
    const double size = std::abs(shown);
    double step = meter.finest_step;
    for (double full = meter.smallest_full; size > full && full < 1e6; full *= 10) step *= 10;
    const double limit = meter.share * size + meter.digits * step;
    return limit * limit / 3;
}

double Likelihood::sum() const {
    const double larger = std::max(sound, nonsense);
    if (!std::isfinite(larger)) return larger;
    return larger + std::log1p(std::exp(std::min(sound, nonsense) - larger));
}

Likelihood likelihood_of(Finding::Kind kind, const Expectation& expected, double value, double range,
                         const Assumptions& assumptions) {
    const double taken_properly = std::log1p(-expected.nonsense);
    const double astray = std::log(expected.nonsense);
    if (kind == Finding::Kind::sign) {
        const auto& called = assumptions.called[at(sign_number(expected.mean))];
        return {taken_properly + std::log(called[at(sign_number(value))]), astray - std::log(called.size())};
    }
    return {taken_properly + log_normal_density(value, expected), astray - std::log(range)};
}

bool are_told_apart(Finding::Kind kind, const Expectation& one, const Expectation& other) {
    if (one.says_nothing() || other.says_nothing()) return false;
    if (kind == Finding::Kind::sign) return sign_number(one.mean) != sign_number(other.mean);
    return std::abs(one.mean - other.mean) > kMiddle99 * (one.sigma + other.sigma);
}

}  // namespace halfsplit::diagnosis
