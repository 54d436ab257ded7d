#include "engine/practice/session/reading_in_time.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "engine/diagnosis/swing.h"
#include "engine/instruments/voltmeter.h"
#include "engine/model/law.h"
#include "engine/simulation/course.h"

namespace halfsplit::practice {

namespace {

/// Two rounds of an indicator (60 to 120 a minute).
constexpr double kWatchS = 2;
const char* const kVoltmeter = "voltmeter";

/// Of the recorder's eight bits, in V or A per step; from memory.
constexpr double kRecorderStep = 0.05;

using Samples = std::vector<double>;

/// The voltage at a voltmeter's leads, look after look; empty where nothing moves.
tl::expected<Samples, Diagnostics> watched(const model::Circuit& circuit, const simulation::Settled& settled,
                                           const instruments::Leads& leads) {
    auto course = simulation::Course::begin(circuit, settled, {});
    if (!course) return tl::unexpected(course.error());
    Samples volts;
    if (course->is_steady()) return volts;
    network::Situation probed = settled.situation;
    probed.attachments.push_back(
        {kVoltmeter, leads.at, leads.against, model::Resistance{instruments::kVoltmeterOhm}});
    if (const auto changed = course->change(probed); !changed) return tl::unexpected(changed.error());
    const auto node = [&](const std::string& point) {
        return course->network().point_nodes.find(point)->second;
    };
    for (int look = 0; look * diagnosis::kLookEveryS < kWatchS; ++look) {
        if (const auto run = course->run_until(look * diagnosis::kLookEveryS); !run)
            return tl::unexpected(run.error());
        volts.push_back(course->potential_v(node(leads.at)) - course->potential_v(node(leads.against)));
    }
    return volts;
}

std::string number_shown(double value, const char* unit) {
    const double rounded = std::round(value / kRecorderStep) * kRecorderStep;
    std::string text = std::to_string(std::abs(rounded) < kRecorderStep / 2 ? 0.0 : rounded);
    text.resize(text.find('.') + 3);
    return text + " " + unit;
}

}  // namespace

instruments::Measured reading_in_time(const model::Circuit& circuit, const simulation::Settled& settled,
                                      const std::string& instrument, const instruments::Leads& leads) {
    auto reading = instruments::measure({circuit, settled}, instrument, leads);
    if (!reading || !settled.living || instrument != kVoltmeter) return reading;
    const auto volts = watched(circuit, settled, leads);
    if (!volts) return tl::unexpected(volts.error());
    if (volts->empty()) return reading;
    const diagnosis::Swing swing = diagnosis::swing_of(*volts);
    if (!swing.pulses) return reading;
    // Two crossings are one round.
    const bool is_fast = swing.crossings > 2 * diagnosis::kFastHz * kWatchS;
    const double mean_v =
        std::accumulate(volts->begin(), volts->end(), 0.0) / static_cast<double>(volts->size());
    instruments::Reading shown =
        instruments::volts_on_display(is_fast ? mean_v : diagnosis::while_up(*volts));
    if (!is_fast)
        shown.shown = instruments::volts_on_display(swing.least_v).shown + " and " +
                      instruments::volts_on_display(swing.most_v).shown + ", to and fro";
    shown.instrument = reading->instrument;
    shown.at = reading->at;
    shown.against = reading->against;
    return shown;
}

double sampled_every_s(double seconds) {
    constexpr double kSamples = 5000;
    return std::max(kRecorderSampleS, seconds / kSamples);
}

std::vector<Observed> extremes(const instruments::Channel& channel, double least, double most) {
    const char* unit = channel.is_current ? "A" : "V";
    return {{"recorder " + channel.name + " least", unit, number_shown(least, unit), least, kRecorderStep},
            {"recorder " + channel.name + " most", unit, number_shown(most, unit), most, kRecorderStep}};
}

}  // namespace halfsplit::practice
