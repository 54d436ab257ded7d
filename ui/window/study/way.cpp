#include "ui/window/study/way.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/tracing/live_path.h"
#include "engine/tracing/side_paths.h"
#include "ui/view/path_table.h"
#include "ui/view/table.h"

namespace halfsplit::window {

using tracing::Path;
using tracing::Step;

namespace {

class WayWriter {
  public:
    WayWriter(const model::Circuit& circuit, Way& way) : circuit_(circuit), way_(way) {}

    void add(const Step& step, double volts_v) {
        Way::Stop stop;
        stop.what = view::step_name(step) + (step.title.empty() ? "" : " " + step.title);
        stop.volts = view::volts_text(volts_v);
        if (!step.conducts) stop.note = "OPEN";
        if (step.role == tracing::Role::load) stop.note = view::amperes_text(std::abs(step.current_a));
        way_.stops.push_back(std::move(stop));
        const auto number = static_cast<int>(way_.stops.size());
        if (step.wire >= 0) way_.numbers.emplace(circuit_.wires[at(step.wire)].id, number);
        if (step.part < 0) return;
        way_.numbers.emplace(circuit_.parts[at(step.part)].id, number);
        // A part that it passes twice, such as a coupling, has another number there.
        for (const std::string& point : {step.from, step.to})
            way_.numbers.emplace(point.substr(0, point.find('@')), number);
    }

    void add_onwards(const Path& path) {
        for (const Step& step : view::told_steps(path)) add(step, step.to_v);
    }
    /// A path that was walked towards the supply, told from there.
    void add_backwards(const Path& path) {
        std::vector<Step> steps = view::told_steps(path);
        std::ranges::reverse(steps);
        for (const Step& step : steps) add(step, step.from_v);
    }

  private:
    const model::Circuit& circuit_;
    Way& way_;
};

/// What stops current there.
std::string open_on(const std::vector<Path>& paths) {
    if (paths.empty()) return "no way at all";
    const auto open = std::ranges::find(paths.front().steps, false, &Step::conducts);
    return open == paths.front().steps.end() ? "" : view::step_name(*open) + " is open";
}

/// Of a part with several elements its load, a relay's coil: the feed of one element and the ground of
/// another are no way.
tracing::Start resting_start(const tracing::Wiring& wiring, const tracing::Start& start) {
    if (start.subject != tracing::Subject::part) return start;
    for (const int branch : start.own)
        if (wiring.role(branch) == tracing::Role::load)
            if (auto load = tracing::find_start(wiring, wiring.branch(branch).name)) return std::move(*load);
    return start;
}

}  // namespace

Way way_through(const instruments::LiveBench& bench, const std::string& name) {
    Way way;
    const auto settled = bench.course().settled_as_it_stands();
    if (!settled) return way;
    const tracing::Wiring wiring(bench.circuit(), settled->network, settled->point);
    const auto start = tracing::find_start(wiring, name);
    if (!start) return way;
    WayWriter writer(bench.circuit(), way);
    if (const auto live = tracing::live_path(wiring, *start)) {
        way.heading = "The current through " + name + ", from its feed to ground";
        writer.add_onwards(*live);
        return way;
    }
    const tracing::SidePaths sides = tracing::side_paths(wiring, resting_start(wiring, *start), {});
    const std::string fed = open_on(sides.to_supply);
    const std::string grounded = open_on(sides.to_ground);
    way.heading = name + " carries no current. Feed: " + (fed.empty() ? "closed" : fed) +
                  ". Ground: " + (grounded.empty() ? "closed" : grounded) + ".";
    if (!sides.to_supply.empty()) writer.add_backwards(sides.to_supply.front());
    if (!sides.to_ground.empty()) writer.add_onwards(sides.to_ground.front());
    return way;
}

}  // namespace halfsplit::window
