#include <benchmark/benchmark.h>

#include "engine/model/chart/read_chart.h"
#include "engine/simulation/chart/run_chart.h"

namespace {

using namespace halfsplit::simulation;

class SteadySenses : public Senses {
  public:
    double in_v(std::string_view /*pin*/) const override { return 12; }
    double hz(std::string_view /*pin*/) const override { return 0; }
    double amps(std::string_view /*driver*/) const override { return 1; }
};

/// Four regions that each watch a voltage, a current and their neighbour, as a body unit does.
halfsplit::model::chart::Chart body_unit() {
    std::string regions;
    for (const char* id : {"a", "b", "c", "d"}) {
        const std::string name(id);
        regions += "<state id=\"" + name + "\"><transition cond=\"_amps('7') > 8 and not In('" + name +
                   "2')\" target=\"" + name + "2\"/><state id=\"" + name +
                   "1\"><transition cond=\"_in('3') &lt; limit or _event == 'stop'\" target=\"" + name +
                   "2\"/><transition event=\"in.3.low\" target=\"" + name + "1\"/></state><state id=\"" +
                   name + "2\"/></state>";
    }
    auto chart = halfsplit::model::chart::read_chart(
        "<scxml xmlns=\"http://www.w3.org/2005/07/scxml\" version=\"1.0\"><datamodel><data id=\"limit\" "
        "expr=\"6\"/>"
        "</datamodel><parallel id=\"p\">" +
            regions + "</parallel></scxml>",
        "body.scxml");
    return std::move(chart.value());
}

/// What every step of a simulation pays for a unit that has nothing to do.
void chart_at_rest(benchmark::State& state) {
    const auto chart = body_unit();
    const SteadySenses senses;
    const ChartState at_rest = start_chart(chart, senses, 0).value();
    for (auto _ : state) benchmark::DoNotOptimize(wants_to_act(chart, at_rest, senses, 1));
}
BENCHMARK(chart_at_rest)->Unit(benchmark::kNanosecond);

/// An event that all four regions answer.
void chart_event(benchmark::State& state) {
    const auto chart = body_unit();
    const SteadySenses senses;
    ChartState running = start_chart(chart, senses, 0).value();
    for (auto _ : state) {
        raise_event(running, "in.3.low");
        benchmark::DoNotOptimize(act(chart, running, senses, 1));
    }
}
BENCHMARK(chart_event)->Unit(benchmark::kMicrosecond);

}  // namespace
