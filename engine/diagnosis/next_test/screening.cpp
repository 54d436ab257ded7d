#include "engine/diagnosis/next_test/screening.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace halfsplit::diagnosis {
namespace {

constexpr int kBins = 16;
constexpr float kWide = std::numeric_limits<float>::infinity();

/// How the values of one finding go to bins.
struct Scale {
    float low = kWide;
    float high = -kWide;
    float bins_per_unit = 0;  ///< 0: all go to one, nothing is told
};

/// Of the permitted findings in one state.
class StateScreen {
  public:
    StateScreen(const Hypotheses& hypotheses, const Live& live, int state, const std::vector<int>& findings)
        : hypotheses_(hypotheses),
          live_(live),
          state_(state),
          findings_(findings),
          scales_(findings.size()),
          bins_(findings.size()) {}

    void append_bits(std::vector<double>& bits) {
        find_scales();
        count();
        for (const auto& bin : bins_) bits.push_back(bits_of(bin));
    }

  private:
    void find_scales() {
        for (const int hypothesis : live_.hypotheses) {
            const auto values = hypotheses_.values(hypothesis, state_);
            for (std::size_t i = 0; i < findings_.size(); ++i) {
                const float value = values[at(findings_[i])];
                Scale& scale = scales_[i];
                // False for what is no number.
                scale.low = value < scale.low ? value : scale.low;
                scale.high = value > scale.high ? value : scale.high;
            }
        }
        for (std::size_t i = 0; i < findings_.size(); ++i) {
            Scale& scale = scales_[i];
            if (!(scale.high > scale.low)) continue;
            const float width =
                std::max((scale.high - scale.low) / static_cast<float>(kBins - 1), least_width(i));
            scale.bins_per_unit = 1 / width;
            scale.low -= width / 2;  // the least value lies in the middle of its bin
        }
    }

    float least_width(std::size_t i) const {
        const int finding = findings_[i];
        if (hypotheses_.dictionary().findings[at(finding)].kind == Finding::Kind::sign) return 1;
        constexpr double kSigmas = 4;
        const Expecting expecting = hypotheses_.expecting(state_, finding);
        const Told told = hypotheses_.weighed_as(state_);
        return static_cast<float>(kSigmas * std::min(expecting(scales_[i].low, told).sigma,
                                                     expecting(scales_[i].high, told).sigma));
    }

    void count() {
        for (std::size_t row = 0; row < live_.hypotheses.size(); ++row) {
            const auto values = hypotheses_.values(live_.hypotheses[row], state_);
            const auto weight = static_cast<float>(live_.probability[row]);
            for (std::size_t i = 0; i < findings_.size(); ++i) {
                const Scale& scale = scales_[i];
                const float bin = (values[at(findings_[i])] - scale.low) * scale.bins_per_unit;
                if (bin >= 0) bins_[i][static_cast<std::size_t>(bin)] += weight;
            }
        }
    }

    static double bits_of(const std::array<float, kBins + 1>& bins) {
        double sum = 0;
        double bits = 0;
        for (const float each : bins) {
            if (each <= 0) continue;
            const auto weight = static_cast<double>(each);
            sum += weight;
            bits -= weight * std::log2(weight);
        }
        return sum > 0 ? bits + sum * std::log2(sum) : 0;
    }

    const Hypotheses& hypotheses_;
    const Live& live_;
    int state_;
    const std::vector<int>& findings_;
    std::vector<Scale> scales_;
    std::vector<std::array<float, kBins + 1>> bins_;
};

}  // namespace

std::vector<double> rough_bits(const Hypotheses& hypotheses, const Live& live, const Permitted& permitted) {
    std::vector<double> bits;
    bits.reserve(permitted.states.size() * permitted.findings.size());
    for (const int state : permitted.states)
        StateScreen(hypotheses, live, state, permitted.findings).append_bits(bits);
    return bits;
}

Live thinned(const Live& live, std::size_t most) {
    if (live.hypotheses.size() <= most) return live;
    double sum = 0;
    for (const double each : live.probability) sum += each;
    const double step = sum / static_cast<double>(most);
    Live drawn;
    double next = step / 2;
    double passed = 0;
    for (std::size_t i = 0; i < live.hypotheses.size(); ++i) {
        passed += live.probability[i];
        double weight = 0;
        for (; next < passed; next += step) weight += step;
        if (weight <= 0) continue;
        drawn.hypotheses.push_back(live.hypotheses[i]);
        drawn.probability.push_back(weight);
    }
    return drawn;
}

}  // namespace halfsplit::diagnosis
