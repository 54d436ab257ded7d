#pragma once

#include <catch2/catch.hpp>
#include <map>
#include <string>
#include <vector>

#include "engine/model/chart/read_chart.h"
#include "engine/simulation/chart/run_chart.h"

namespace halfsplit::test {

/// What a unit perceives, as a test sets it; a pin nobody set reads 0.
class SetSenses : public simulation::Senses {
  public:
    std::map<std::string, double, std::less<>> volts;
    std::map<std::string, double, std::less<>> hertz;
    std::map<std::string, double, std::less<>> amperes;

    double in_v(std::string_view pin) const override { return value(volts, pin); }
    double hz(std::string_view pin) const override { return value(hertz, pin); }
    double amps(std::string_view driver) const override { return value(amperes, driver); }

  private:
    static double value(const std::map<std::string, double, std::less<>>& values, std::string_view pin) {
        const auto found = values.find(pin);
        return found == values.end() ? 0 : found->second;
    }
};

/// A behaviour file from the inside of its <scxml>.
inline std::string chart_text(const std::string& inside, const std::string& attributes = "") {
    return "<scxml xmlns=\"http://www.w3.org/2005/07/scxml\" version=\"1.0\" " + attributes + ">\n" + inside +
           "</scxml>\n";
}

/// Ends the test with the reader's errors where it has any.
inline model::chart::Chart chart_of(const std::string& inside, const std::string& attributes = "") {
    auto chart = model::chart::read_chart(chart_text(inside, attributes), "a.scxml");
    std::string errors;
    if (!chart)
        for (const Diagnostic& error : chart.error()) errors += to_text(error) + "\n";
    INFO(errors);
    REQUIRE(chart);
    return std::move(*chart);
}

/// A chart that runs, and what it logs.
class ChartPlayer {
  public:
    explicit ChartPlayer(const std::string& inside, const std::string& attributes = "")
        : ChartPlayer(chart_of(inside, attributes)) {}
    explicit ChartPlayer(model::chart::Chart chart, SetSenses start = {})
        : senses(std::move(start)), chart_(std::move(chart)) {
        auto started = simulation::start_chart(chart_, senses, 0);
        if (!started) FAIL(started.error().message);
        state = std::move(*started);
    }

    SetSenses senses;
    simulation::ChartState state;
    double now_s = 0;

    const model::chart::Chart& chart() const { return chart_; }
    bool wants_to_act() const { return simulation::wants_to_act(chart_, state, senses, now_s); }

    void act() {
        const auto done = simulation::act(chart_, state, senses, now_s);
        if (!done) FAIL(done.error().message);
    }
    void send(const std::string& event) {
        simulation::raise_event(state, event);
        act();
    }
    /// Goes on to the time, stopping where a delayed event is due.
    void run_to(double until_s) {
        while (const auto next_s = simulation::next_timer_s(state)) {
            if (*next_s > until_s) break;
            now_s = *next_s;
            act();
        }
        now_s = until_s;
    }

    /// Ids of the active states in the order of the file, with spaces between.
    std::string active() const {
        std::string ids;
        for (const int index : state.configuration) ids += (ids.empty() ? "" : " ") + chart_.state(index).id;
        return ids;
    }
    /// What has been logged since this was last asked, with spaces between.
    std::string log() {
        std::string texts;
        for (const simulation::LogLine& line : simulation::take_log(state))
            texts += (texts.empty() ? "" : " ") + line.text;
        return texts;
    }

  private:
    model::chart::Chart chart_;
};

}  // namespace halfsplit::test
