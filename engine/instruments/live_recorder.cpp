#include "engine/instruments/live_recorder.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace halfsplit::instruments {

namespace {

/// Forgotten at once, as a share of what is kept: moving all samples for each new one would take long.
constexpr double kForgottenAtOnce = 0.25;

}  // namespace

tl::expected<void, Diagnostics> LiveRecorder::connect_to(LiveBench& bench) const {
    network::Situation situation = bench.situation();
    disconnect(situation);
    connect(strip_.channels, situation);
    return bench.change(situation);
}

tl::expected<void, Diagnostics> LiveRecorder::put_on(LiveBench& bench, const Channel& channel) {
    if (strip_.channels.size() == kMostChannels)
        return tl::unexpected(one_problem("the recorder has four channels"));
    if (!channel.is_current && channel.name == channel.against)
        return tl::unexpected(
            one_problem("both leads are on '" + channel.name + "'; two different points were expected"));
    if (std::ranges::find(strip_.channels, channel) != strip_.channels.end())
        return tl::unexpected(one_problem(channel.name + " is recorded already"));
    strip_.channels.push_back(channel);
    strip_.values.emplace_back(strip_.time_s.size(), std::numeric_limits<double>::quiet_NaN());
    auto connected = connect_to(bench);
    if (!connected) {
        strip_.channels.pop_back();
        strip_.values.pop_back();
        return connected;
    }
    keep(bench);
    return {};
}

tl::expected<void, Diagnostics> LiveRecorder::take_off(LiveBench& bench, std::size_t channel) {
    strip_.channels.erase(strip_.channels.begin() + static_cast<std::ptrdiff_t>(channel));
    strip_.values.erase(strip_.values.begin() + static_cast<std::ptrdiff_t>(channel));
    if (!is_on()) strip_ = {};
    return connect_to(bench);
}

tl::expected<void, Diagnostics> LiveRecorder::advance(LiveBench& bench, double seconds) {
    const double until_s = bench.now_s() + seconds;
    if (!is_on()) return bench.advance(seconds);
    // Before the first: something may have been switched since the last one.
    keep(bench);
    const auto first = static_cast<long>(std::floor(bench.now_s() / kEveryS)) + 1;
    for (long i = first; kEveryS * static_cast<double>(i) < until_s; ++i) {
        if (auto run = bench.advance(kEveryS * static_cast<double>(i) - bench.now_s()); !run) return run;
        keep(bench);
    }
    if (auto run = bench.advance(std::max(0.0, until_s - bench.now_s())); !run) return run;
    keep(bench);
    forget_what_is_old();
    return {};
}

void LiveRecorder::begin_anew() {
    strip_.time_s.clear();
    for (std::vector<double>& values : strip_.values) values.clear();
}

void LiveRecorder::keep(const LiveBench& bench) {
    const std::vector<double> now = values_now(bench.course(), strip_.channels);
    strip_.time_s.push_back(bench.now_s());
    for (std::size_t channel = 0; channel < now.size(); ++channel)
        strip_.values[channel].push_back(now[channel]);
}

void LiveRecorder::forget_what_is_old() {
    const double oldest_s = strip_.time_s.back() - kKeptS;
    if (strip_.time_s.front() > oldest_s - kForgottenAtOnce * kKeptS) return;
    const auto count = static_cast<std::ptrdiff_t>(first_from(strip_, oldest_s));
    strip_.time_s.erase(strip_.time_s.begin(), strip_.time_s.begin() + count);
    for (std::vector<double>& values : strip_.values) values.erase(values.begin(), values.begin() + count);
}

}  // namespace halfsplit::instruments
