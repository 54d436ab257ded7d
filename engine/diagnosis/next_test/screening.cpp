#include "engine/diagnosis/next_test/screening.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <span>
#include <string>

#include "engine/diagnosis/dictionary/share_out.h"

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

/// `low` and `high` are the least and the largest value there is.
Scale scale_for(const Hypotheses& hypotheses, int state, int finding, float low, float high) {
    if (!(high > low)) return {low, high, 0};
    float least_width = 1;  // of signs
    if (hypotheses.dictionary().findings[at(finding)].kind != Finding::Kind::sign) {
        constexpr double kSigmas = 4;
        const Expecting expecting = hypotheses.expecting(state, finding);
        const Told told = hypotheses.weighed_as(state);
        least_width =
            static_cast<float>(kSigmas * std::min(expecting(low, told).sigma, expecting(high, told).sigma));
    }
    const float width = std::max((high - low) / static_cast<float>(kBins - 1), least_width);
    // The least value lies in the middle of its bin.
    return {low - width / 2, high, 1 / width};
}

/// A letter for the bin of each hypothesis, in the alphabet's order as they are first met, so that it does
/// not matter which values they stand for.
std::string division_by(const Hypotheses& hypotheses, const Live& live, const Test& test) {
    constexpr char kUnknown = '?';
    std::vector<float> values;
    for (const int each : live.hypotheses)
        values.push_back(hypotheses.values(each, test.state)[at(test.finding)]);
    float low = kWide;
    float high = -kWide;
    for (const float value : values) {
        // False for what is no number.
        low = value < low ? value : low;
        high = value > high ? value : high;
    }
    const Scale scale = scale_for(hypotheses, test.state, test.finding, low, high);
    std::array<char, kBins + 1> numbers{};
    numbers.fill(kUnknown);
    char next = 'a';
    std::string division;
    for (const float value : values) {
        const float bin = (value - scale.low) * scale.bins_per_unit;
        if (!(bin >= 0)) {
            division.push_back(kUnknown);
            continue;
        }
        char& number = numbers[static_cast<std::size_t>(bin)];
        if (number == kUnknown) number = next++;
        division.push_back(number);
    }
    return division;
}

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

    /// In bits, one per finding.
    void rate(std::span<double> bits) {
        find_scales();
        count();
        std::ranges::transform(bins_, bits.begin(), bits_of);
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
        for (std::size_t i = 0; i < findings_.size(); ++i)
            scales_[i] = scale_for(hypotheses_, state_, findings_[i], scales_[i].low, scales_[i].high);
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
    const std::size_t findings = permitted.findings.size();
    std::vector<double> bits(permitted.states.size() * findings);
    share_out(static_cast<int>(permitted.states.size()), kThreadsBetweenReadings, [&](int state, int) {
        StateScreen(hypotheses, live, permitted.states[at(state)], permitted.findings)
            .rate(std::span(bits).subspan(at(state) * findings, findings));
    });
    return bits;
}

std::vector<std::size_t> different_tests(const Hypotheses& hypotheses, const Live& live,
                                         const std::vector<Test>& tests, int alike, std::size_t most) {
    std::map<std::string, int> known;
    std::vector<std::size_t> chosen;
    std::vector<std::size_t> passed_over;
    for (std::size_t i = 0; i < tests.size() && chosen.size() < most; ++i)
        (++known[division_by(hypotheses, live, tests[i])] <= alike ? chosen : passed_over).push_back(i);
    const auto room = static_cast<std::ptrdiff_t>(std::min(most - chosen.size(), passed_over.size()));
    chosen.insert(chosen.end(), passed_over.begin(), passed_over.begin() + room);
    return chosen;
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
