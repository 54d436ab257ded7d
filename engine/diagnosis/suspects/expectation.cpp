#include "engine/diagnosis/suspects/expectation.h"

#include <algorithm>
#include <cmath>
#include <limits>
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

double squared(double value) {
    return value * value;
}

}  // namespace

Expecting::Expecting(const Finding& finding, double sound, double scatter, const Assumptions& assumptions)
    : assumptions_(assumptions),
      kind_(finding.kind),
      meter_(finding.kind == Finding::Kind::current ? assumptions.clamp : assumptions.voltmeter),
      sound_(sound),
      own_variance_(
          squared(finding.kind == Finding::Kind::current ? assumptions.floor_a : assumptions.floor_v) +
          squared(scatter)) {}

Expectation Expecting::operator()(float value, Told told) const {
    const bool stands = told == Told::as_it_stands;
    Expectation expected{static_cast<double>(value), 0,
                         stands ? assumptions_.nonsense_share_as_it_stands : assumptions_.nonsense_share};
    if (kind_ == Finding::Kind::sign) return expected;
    double variance = own_variance_ + meter_variance(meter_, expected.mean);
    if (kind_ == Finding::Kind::voltage)
        variance += squared(assumptions_.supply_scatter_share * expected.mean);
    if (std::isfinite(sound_)) {
        const double change = std::min(std::abs(expected.mean - sound_), std::abs(expected.mean));
        variance += squared(assumptions_.change_scatter_share * change);
        if (stands)
            variance = variance * squared(assumptions_.as_it_stands_factor) +
                       squared(assumptions_.as_it_stands_share * change);
    }
    expected.sigma = std::sqrt(variance);
    return expected;
}

bool Expecting::tells_apart(float one, float other, Told told) const {
    return one != other && are_told_apart(kind_, (*this)(one, told), (*this)(other, told));
}

float Expecting::least_apart() const {
    return kind_ == Finding::Kind::sign ? 0 : static_cast<float>(2 * kMiddle99 * std::sqrt(own_variance_));
}

double meter_variance(const Meter& meter, double shown) {
    const double size = std::abs(shown);
    double step = meter.finest_step;
    // Six ranges are more than any meter has.
    double full = meter.smallest_full;
    for (int range = 1; range < 6 && size > full; ++range) {
        full *= 10;
        step *= 10;
    }
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

Likelihood likelihood_of_complaint(Finding::Kind kind, Expectation expected, double sound, double value,
                                   double range, double mistaken, const Assumptions& assumptions) {
    expected.nonsense = mistaken;
    if (kind != Finding::Kind::sign || sign_number(expected.mean) != sign_number(sound))
        return likelihood_of(kind, expected, value, range, assumptions);
    return {-std::numeric_limits<double>::infinity(), std::log(mistaken)};
}

bool are_told_apart(Finding::Kind kind, const Expectation& one, const Expectation& other) {
    if (one.says_nothing() || other.says_nothing()) return false;
    if (kind == Finding::Kind::sign) return sign_number(one.mean) != sign_number(other.mean);
    return std::abs(one.mean - other.mean) > kMiddle99 * (one.sigma + other.sigma);
}

}  // namespace halfsplit::diagnosis
