#include "ui/view/trace_json.h"

#include <array>
#include <nlohmann/json.hpp>

namespace halfsplit::view {

using Json = nlohmann::ordered_json;
using tracing::Path;
using tracing::Step;
using tracing::Trace;

namespace {

std::string subject_name(tracing::Subject subject) {
    constexpr std::array<const char*, 4> kNames{"point", "part", "wire", "element"};
    return kNames[static_cast<std::size_t>(subject)];
}

std::string extent_name(tracing::Extent extent) {
    return extent == tracing::Extent::now ? "now" : "as-wired";
}

Json to_json(const Step& step) {
    Json json;
    json["name"] = step.name;
    json["title"] = step.title;
    json["role"] = std::string(tracing::role_name(step.role));
    json["from"] = step.from;
    json["to"] = step.to;
    json["from_place"] = step.from_place;
    json["to_place"] = step.to_place;
    json["colour"] = step.colour;
    json["area_mm2"] = step.area_mm2;
    json["from_v"] = step.from_v;
    json["to_v"] = step.to_v;
    json["floating"] = step.to_floats;
    json["current_a"] = step.current_a;
    json["conducts"] = step.conducts;
    return json;
}

Json to_json(const model::Circuit& circuit, const Path& path) {
    Json json;
    json["start"] = path.start;
    json["end"] = path.end;
    json["start_v"] = path.start_v;
    json["interrupted"] = path.interrupted;
    json["loads"] = Json::array();
    for (const int part : path.loads)
        if (part >= 0) json["loads"].push_back(circuit.parts[static_cast<std::size_t>(part)].id);
    json["steps"] = Json::array();
    for (const Step& step : path.steps) json["steps"].push_back(to_json(step));
    return json;
}

Json to_json(const model::Circuit& circuit, const std::vector<Path>& paths) {
    Json json = Json::array();
    for (const Path& path : paths) json.push_back(to_json(circuit, path));
    return json;
}

Json to_json(const std::vector<tracing::LostLoad>& all) {
    Json json = Json::array();
    for (const tracing::LostLoad& lost : all)
        json.push_back({{"load", lost.load},
                        {"loses_feed", lost.loses_feed},
                        {"loses_ground", lost.loses_ground},
                        {"because_of", lost.because_of.empty() ? Json(nullptr) : Json(lost.because_of)}});
    return json;
}

Json back_feeds_json(const model::Circuit& circuit, const Trace& trace) {
    Json json = Json::array();
    for (const tracing::BackFeed& each : trace.back_feeds)
        json.push_back({{"load", each.load},
                        {"current_a", each.current_a},
                        {"enters_at_ground_side", each.enters_at_ground_side},
                        {"leaves_at_feed_side", each.leaves_at_feed_side},
                        {"through", each.through},
                        {"open_to_ground", each.open_to_ground},
                        {"open_to_supply", each.open_to_supply},
                        {"route", to_json(circuit, each.route)}});
    return json;
}

Json shares_json(const Trace& trace) {
    Json json = Json::array();
    for (const tracing::Sharing& each : trace.sharing)
        json.push_back({{"with", std::string(tracing::common_name(each.common))},
                        {"through", each.through},
                        {"title", each.title},
                        {"loads", each.loads}});
    return json;
}

Json protects_json(const model::Circuit& circuit, const Trace& trace) {
    if (!trace.protects) return nullptr;
    Json json;
    json["loads"] = trace.protects->loads;
    json["wires"] = Json::array();
    for (const int wire : trace.protects->wires)
        json["wires"].push_back(circuit.wires[static_cast<std::size_t>(wire)].id);
    return json;
}

}  // namespace

std::string trace_json(const model::Circuit& circuit, const Trace& trace) {
    Json json;
    json["trace"] = trace.name;
    json["kind"] = subject_name(trace.subject);
    json["title"] = trace.title;
    json["place"] = trace.place;
    json["extent"] = extent_name(trace.extent);
    json["to_supply"] = to_json(circuit, trace.sides.to_supply);
    json["to_ground"] = to_json(circuit, trace.sides.to_ground);
    json["cut"] = {{"supply", trace.sides.supply_cut}, {"ground", trace.sides.ground_cut}};
    json["body_return"] = to_json(circuit, trace.body_return);
    json["live"] = trace.live ? to_json(circuit, *trace.live) : Json(nullptr);
    json["back_feeds"] = back_feeds_json(circuit, trace);
    json["shares"] = shares_json(trace);
    json["protects"] = protects_json(circuit, trace);
    json["lost_if_open"] = to_json(trace.lost_if_open);
    json["lost_then"] = to_json(trace.lost_then);
    return json.dump(2);
}

std::string connection_json(const model::Circuit& circuit, const tracing::Connection& connection) {
    Json json;
    json["from"] = connection.from;
    json["to"] = connection.to;
    json["extent"] = extent_name(connection.extent);
    json["cut"] = connection.cut;
    json["paths"] = to_json(circuit, connection.paths);
    return json.dump(2);
}

}  // namespace halfsplit::view
