#include "ui/view/course_state_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

namespace halfsplit::view {

using simulation::CourseState;
using simulation::Turning;
using Json = nlohmann::ordered_json;

namespace {

/// JSON has no infinity, and "never" is one.
Json number(double value) {
    if (std::isfinite(value)) return value;
    return value > 0 ? "never" : "ever";
}

double number_in(const Json& json) {
    if (!json.is_string()) return json.get<double>();
    return json.get<std::string>() == "never" ? simulation::kNever : -simulation::kNever;
}

Json value_json(const model::chart::Value& value) {
    return std::visit([](const auto& of) { return Json(of); }, value);
}

model::chart::Value value_in(const Json& json) {
    if (json.is_boolean()) return json.get<bool>();
    if (json.is_string()) return json.get<std::string>();
    return json.get<double>();
}

Json situation_json(const network::Situation& situation) {
    Json json;
    json["positions"] = situation.positions;
    json["quantities"] = situation.quantities;
    json["travels"] = situation.travels;
    json["faults"] = Json::array();
    for (const network::Fault& fault : situation.faults) json["faults"].push_back(fault.text);
    json["unplugged"] = situation.unplugged;
    json["pulled"] = situation.pulled;
    json["attachments"] = Json::array();
    for (const network::Attachment& each : situation.attachments)
        if (const auto* law = std::get_if<model::Resistance>(&each.law))
            json["attachments"].push_back(
                {{"name", each.name}, {"from", each.from}, {"to", each.to}, {"ohm", law->ohm}});
    return json;
}

network::Situation situation_in(const model::Circuit& circuit, const Json& json) {
    network::Situation situation;
    for (const auto& [id, value] : json.at("positions").items())
        situation.positions[id] = value.get<std::string>();
    for (const auto& [id, value] : json.at("quantities").items())
        situation.quantities[id] = value.get<double>();
    for (const auto& [id, value] : json.at("travels").items()) situation.travels[id] = value.get<double>();
    for (const Json& text : json.at("faults")) {
        auto fault = network::parse_fault(circuit, text.get<std::string>());
        if (!fault) throw std::invalid_argument(fault.error());
        situation.faults.push_back(std::move(*fault));
    }
    for (const Json& id : json.at("unplugged")) situation.unplugged.insert(id.get<std::string>());
    for (const Json& id : json.at("pulled")) situation.pulled.insert(id.get<std::string>());
    for (const Json& each : json.at("attachments"))
        situation.attachments.push_back({each.at("name").get<std::string>(),
                                         each.at("from").get<std::string>(), each.at("to").get<std::string>(),
                                         model::Resistance{each.at("ohm").get<double>()}});
    return situation;
}

Json chart_json(const simulation::ChartState& chart) {
    Json json;
    json["configuration"] = chart.configuration;
    json["data"] = Json::array();
    for (const model::chart::Value& value : chart.data) json["data"].push_back(value_json(value));
    json["event"] = chart.event;
    json["internal"] = chart.internal_events;
    json["external"] = chart.external_events;
    json["delayed"] = Json::array();
    for (const simulation::DelayedEvent& each : chart.delayed)
        json["delayed"].push_back({{"event", each.event},
                                   {"id", each.send_id},
                                   {"due_s", number(each.due_s)},
                                   {"order", each.order}});
    json["next_order"] = chart.next_order;
    json["drives"] = Json::object();
    for (const auto& [pin, level] : chart.drives)
        json["drives"][pin] = {{"drive", static_cast<int>(level.drive)}, {"duty", level.duty}};
    json["asleep"] = chart.asleep;
    json["finished"] = chart.finished;
    return json;
}

simulation::ChartState chart_in(const Json& json) {
    simulation::ChartState chart;
    chart.configuration = json.at("configuration").get<std::vector<int>>();
    for (const Json& value : json.at("data")) chart.data.push_back(value_in(value));
    chart.event = json.at("event").get<std::string>();
    chart.internal_events = json.at("internal").get<std::deque<std::string>>();
    chart.external_events = json.at("external").get<std::deque<std::string>>();
    for (const Json& each : json.at("delayed"))
        chart.delayed.push_back({each.at("event").get<std::string>(), each.at("id").get<std::string>(),
                                 number_in(each.at("due_s")), each.at("order").get<std::uint64_t>()});
    chart.next_order = json.at("next_order").get<std::uint64_t>();
    for (const auto& [pin, level] : json.at("drives").items())
        chart.drives[pin] = {static_cast<model::chart::Drive>(level.at("drive").get<int>()),
                             level.at("duty").get<double>()};
    chart.asleep = json.at("asleep").get<bool>();
    chart.finished = json.at("finished").get<bool>();
    return chart;
}

Json unit_json(const simulation::UnitState& unit) {
    Json json;
    if (unit.chart) json["chart"] = chart_json(*unit.chart);
    json["next_round_s"] = number(unit.next_round_s);
    json["inputs"] = Json::array();
    for (const simulation::InputState& each : unit.inputs)
        json["inputs"].push_back(
            {{"high", each.high}, {"rose_s", number(each.rose_s)}, {"period_s", number(each.period_s)}});
    json["duties"] = Json::array();
    for (const simulation::Duty& each : unit.duties)
        json["duties"].push_back(
            {{"driver", each.driver}, {"share", each.share}, {"next_s", number(each.next_s)}});
    json["tripped"] = unit.tripped;
    return json;
}

simulation::UnitState unit_in(const Json& json) {
    simulation::UnitState unit;
    if (json.contains("chart")) unit.chart = chart_in(json.at("chart"));
    unit.next_round_s = number_in(json.at("next_round_s"));
    for (const Json& each : json.at("inputs"))
        unit.inputs.push_back(
            {each.at("high").get<bool>(), number_in(each.at("rose_s")), number_in(each.at("period_s"))});
    for (const Json& each : json.at("duties"))
        unit.duties.push_back(
            {each.at("driver").get<int>(), each.at("share").get<double>(), number_in(each.at("next_s"))});
    unit.tripped = json.at("tripped").get<std::vector<int>>();
    return unit;
}

Json tangents_json(const std::vector<network::Tangent>& tangents) {
    Json json = Json::array();
    for (const network::Tangent& each : tangents)
        json.push_back({each.branch, each.at_v, each.current_a, each.slope_s});
    return json;
}

std::vector<network::Tangent> tangents_in(const Json& json) {
    std::vector<network::Tangent> tangents;
    for (const Json& each : json)
        tangents.push_back({each.at(0).get<int>(), each.at(1).get<double>(), each.at(2).get<double>(),
                            each.at(3).get<double>()});
    return tangents;
}

Json stored_json(const simulation::IntegratorState& stored) {
    std::vector<int> turning;
    for (const Turning each : stored.turning) turning.push_back(static_cast<int>(each));
    return {{"x", stored.x},
            {"per_s", stored.per_s},
            {"turning", turning},
            {"tangents", tangents_json(stored.tangents)},
            {"tangents_at_once", tangents_json(stored.tangents_at_once)},
            {"potential_v", stored.moment.potential_v},
            {"current_a", stored.moment.current_a}};
}

simulation::IntegratorState stored_in(const Json& json) {
    simulation::IntegratorState stored;
    stored.x = json.at("x").get<std::vector<double>>();
    stored.per_s = json.at("per_s").get<std::vector<double>>();
    for (const int each : json.at("turning").get<std::vector<int>>())
        stored.turning.push_back(static_cast<Turning>(each));
    stored.tangents = tangents_in(json.at("tangents"));
    stored.tangents_at_once = tangents_in(json.at("tangents_at_once"));
    stored.moment.potential_v = json.at("potential_v").get<std::vector<double>>();
    stored.moment.current_a = json.at("current_a").get<std::vector<double>>();
    return stored;
}

CourseState state_in(const model::Circuit& circuit, const Json& json) {
    CourseState state;
    state.now_s = json.at("now_s").get<double>();
    state.seen_s = json.at("seen_s").get<double>();
    state.step_s = json.at("step_s").get<double>();
    state.situation = situation_in(circuit, json.at("situation"));
    state.conditions = json.at("conditions").get<std::vector<int>>();
    for (const Json& each : json.at("waiting")) {
        auto& waiting = state.waiting.emplace_back();
        if (!each.is_null())
            waiting = simulation::Waiting{each.at("condition").get<int>(), number_in(each.at("due_s"))};
    }
    for (const Json& each : json.at("beats"))
        state.beats.push_back({number_in(each.at("next_s")), each.at("hurries").get<bool>()});
    for (const Json& each : json.at("units")) state.units.push_back(unit_in(each));
    for (const Json& each : json.at("ramps"))
        state.ramps.push_back({each.at("quantity").get<std::string>(), each.at("from").get<double>(),
                               each.at("to").get<double>(), each.at("start_s").get<double>(),
                               each.at("end_s").get<double>()});
    state.next_tick_s = number_in(json.at("next_tick_s"));
    for (const Json& each : json.at("to_come"))
        state.to_come.push_back({each.at("at_s").get<double>(),
                                 each.at("what").get<std::string>(),
                                 each.at("to").get<std::string>(),
                                 each.at("over_s").get<double>(),
                                 {}});
    state.stored = stored_in(json.at("stored"));
    return state;
}

}  // namespace

std::string saved_course(const model::Circuit& circuit, const CourseState& state) {
    Json json;
    json["halfsplit-course"] = 1;
    json["circuit"] = circuit.id;
    json["now_s"] = state.now_s;
    json["seen_s"] = state.seen_s;
    json["step_s"] = state.step_s;
    json["situation"] = situation_json(state.situation);
    json["conditions"] = state.conditions;
    json["waiting"] = Json::array();
    for (const auto& each : state.waiting)
        json["waiting"].push_back(each ? Json{{"condition", each->condition}, {"due_s", number(each->due_s)}}
                                       : Json());
    json["beats"] = Json::array();
    for (const simulation::Beat& each : state.beats)
        json["beats"].push_back({{"next_s", number(each.next_s)}, {"hurries", each.hurries}});
    json["units"] = Json::array();
    for (const simulation::UnitState& each : state.units) json["units"].push_back(unit_json(each));
    json["ramps"] = Json::array();
    for (const simulation::Ramp& each : state.ramps)
        json["ramps"].push_back({{"quantity", each.quantity},
                                 {"from", each.from},
                                 {"to", each.to},
                                 {"start_s", each.start_s},
                                 {"end_s", each.end_s}});
    json["next_tick_s"] = number(state.next_tick_s);
    json["to_come"] = Json::array();
    for (const simulation::TimedSet& each : state.to_come)
        json["to_come"].push_back(
            {{"at_s", each.at_s}, {"what", each.what}, {"to", each.to}, {"over_s", each.over_s}});
    json["stored"] = stored_json(state.stored);
    return json.dump();
}

tl::expected<CourseState, std::string> read_saved_course(const model::Circuit& circuit,
                                                         std::string_view text) {
    const Json json = Json::parse(text, nullptr, false);
    if (json.is_discarded() || !json.is_object() || json.value("halfsplit-course", 0) != 1)
        return tl::unexpected(std::string("is no saved course"));
    if (json.value("circuit", "") != circuit.id)
        return tl::unexpected("was saved from circuit '" + json.value("circuit", "") + "', not '" +
                              circuit.id + "'");
    try {
        return state_in(circuit, json);
    } catch (const std::exception& error) {  // the library and parse_fault throw on what does not fit
        return tl::unexpected("is damaged: " + std::string(error.what()));
    }
}

}  // namespace halfsplit::view
