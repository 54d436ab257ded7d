#include "ui/view/trace_text.h"

#include <algorithm>

#include "engine/base/number.h"
#include "ui/view/path_table.h"

namespace halfsplit::view {

using tracing::BackFeed;
using tracing::LostLoad;
using tracing::Path;
using tracing::Sharing;
using tracing::Trace;

namespace {

std::string joined(const std::vector<std::string>& words, std::string_view otherwise = "nothing") {
    if (words.empty()) return std::string(otherwise);
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i)
        text += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
    return text;
}

std::string plain(const std::string& point) {
    return point.substr(0, point.find('@'));
}

/// What stops a path: the open steps, in order.
std::string open_steps(const Path& path) {
    std::vector<std::string> names;
    for (const tracing::Step& step : path.steps)
        if (!step.conducts) names.push_back(step_name(step));
    return joined(names);
}

std::string loads_on(const model::Circuit& circuit, const Path& path) {
    std::vector<std::string> names;
    for (const int part : path.loads)
        if (part >= 0) names.push_back(circuit.parts[static_cast<std::size_t>(part)].id);
    return joined(names, "a load");
}

std::string path_text(const model::Circuit& circuit, const Path& path) {
    std::string text = "  " + plain(path.start) + " -> " + plain(path.end);
    if (!path.loads.empty()) text += ", through " + loads_on(circuit, path);
    if (path.interrupted) text += ", interrupted at " + open_steps(path);
    return text + "\n" + aligned_text(path_table(path), "    ") + "\n";
}

std::string side_text(const model::Circuit& circuit, const std::string& heading,
                      const std::vector<Path>& paths, bool cut) {
    std::string text = heading + ": ";
    if (paths.empty()) return text + "no path in the present conditions\n\n";
    const bool all_interrupted = std::ranges::all_of(paths, &Path::interrupted);
    text += number_text(static_cast<double>(paths.size())) + (paths.size() == 1 ? " path" : " paths");
    if (all_interrupted) text += paths.size() == 1 ? ", not closed" : ", none of them closed";
    if (cut) text += " (more exist and are not listed)";
    text += "\n";
    for (const Path& path : paths) text += path_text(circuit, path);
    return text;
}

std::string live_text(const Trace& trace) {
    if (!trace.live) return "Current: it carries none\n\n";
    const Path& live = *trace.live;
    return "Current: the way it really takes\n" + aligned_text(path_table(live), "    ") + "\n";
}

bool is_same_way(const Path& path, const std::optional<Path>& other) {
    return other &&
           std::ranges::equal(path.steps, other->steps, {}, &tracing::Step::branch, &tracing::Step::branch);
}

std::string back_feed_text(const BackFeed& back_feed, const std::optional<Path>& live) {
    std::string text =
        "Back-feed: " + back_feed.load + " carries " + amperes_text(back_feed.current_a) + " the wrong way";
    if (back_feed.enters_at_ground_side) text += ", in at its ground side";
    if (back_feed.leaves_at_feed_side) text += ", out at its feed side";
    if (!back_feed.through.empty()) text += ", in series with " + joined(back_feed.through);
    text += "\n";
    if (!back_feed.open_to_ground.empty())
        text += "  open in the ground it should have: " + joined(back_feed.open_to_ground) + "\n";
    if (!back_feed.open_to_supply.empty())
        text += "  open in its feed: " + joined(back_feed.open_to_supply) + "\n";
    if (is_same_way(back_feed.route, live)) return text + "\n";
    return text + aligned_text(path_table(back_feed.route), "    ") + "\n";
}

std::string sharing_text(const std::vector<Sharing>& all) {
    if (all.empty()) return "";
    std::string text = "Shares, as wired\n";
    Table table{{{"with"}, {"through"}, {"loads"}}, {}};
    for (const Sharing& each : all)
        table.rows.push_back({std::string(tracing::common_name(each.common)),
                              each.through + (each.title.empty() ? "" : " " + each.title),
                              joined(each.loads)});
    return text + aligned_text(table, "    ") + "\n";
}

std::string protects_text(const model::Circuit& circuit, const tracing::Protected& found) {
    std::vector<std::string> wires;
    for (const int wire : found.wires) wires.push_back(circuit.wires[static_cast<std::size_t>(wire)].id);
    return "Protects, with every switch taken as closed\n    loads  " + joined(found.loads) +
           "\n    wires  " + joined(wires) + "\n\n";
}

std::string lost_line(const LostLoad& lost) {
    std::string text = "    " + lost.load;
    if (lost.loses_feed && lost.loses_ground)
        text += " loses its feed and its ground";
    else if (lost.loses_feed)
        text += " loses its feed";
    else if (lost.loses_ground)
        text += " loses its ground";
    else
        text += " is left with one side only";
    if (!lost.because_of.empty()) text += ", as " + lost.because_of + " drops out";
    return text + "\n";
}

std::string lost_text(const Trace& trace) {
    std::string text = "If " + trace.name + " opens now";
    if (trace.lost_if_open.empty()) return text + ", nothing else that works goes dead\n";
    text += "\n";
    for (const LostLoad& lost : trace.lost_if_open) text += lost_line(lost);
    for (const LostLoad& lost : trace.lost_then) text += lost_line(lost);
    return text;
}

}  // namespace

std::string trace_text(const model::Circuit& circuit, const Trace& trace) {
    std::string text = trace.name;
    if (!trace.title.empty()) text += " " + trace.title;
    if (!trace.place.empty()) text += " (" + trace.place + ")";
    if (trace.extent == tracing::Extent::as_wired) text += ", as wired";
    text += "\n\n";
    text += side_text(circuit, "Feed side", trace.sides.to_supply, trace.sides.supply_cut);
    text += side_text(circuit, "Ground side", trace.sides.to_ground, trace.sides.ground_cut);
    if (!trace.body_return.empty()) {
        text += "From the body back to the battery\n";
        for (const Path& path : trace.body_return) text += path_text(circuit, path);
    }
    text += live_text(trace);
    for (const BackFeed& back_feed : trace.back_feeds) text += back_feed_text(back_feed, trace.live);
    text += sharing_text(trace.sharing);
    if (trace.protects) text += protects_text(circuit, *trace.protects);
    return text + lost_text(trace);
}

std::string connection_text(const model::Circuit& circuit, const tracing::Connection& connection) {
    std::string text = connection.from + " to " + connection.to + ": ";
    if (connection.paths.empty()) return text + "nothing joins them\n";
    text += number_text(static_cast<double>(connection.paths.size())) +
            (connection.paths.size() == 1 ? " path" : " paths");
    if (connection.cut) text += " (more exist and are not listed)";
    text += "\n";
    for (const Path& path : connection.paths) text += path_text(circuit, path);
    return text;
}

}  // namespace halfsplit::view
