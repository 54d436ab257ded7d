#include "ui/view/settled_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "ui/view/point_rows.h"

namespace halfsplit::view {

using Json = nlohmann::ordered_json;

std::string settled_json(const model::Circuit& circuit, const std::string& state,
                         const simulation::Settled& settled) {
    Json json;
    json["circuit"] = circuit.id;
    json["state"] = state.empty() ? Json(nullptr) : Json(state);
    json["faults"] = Json::array();
    for (const network::Fault& fault : settled.situation.faults) json["faults"].push_back(fault.text);
    json["points"] = Json::object();
    json["floating"] = Json::array();
    for (const std::string& wired : settled.network.points)
        for (const std::string& point : {wired, wired + "@part"}) {
            const int node = settled.network.point_nodes.find(point)->second;
            json["points"][point] = settled.point.potential_at(node);
            if (node != network::kBody && settled.point.floating[static_cast<std::size_t>(node)])
                json["floating"].push_back(point);
        }
    json["currents"] = Json::object();
    for (const CurrentRow& row : current_rows(circuit, settled)) json["currents"][row.name] = row.amperes;
    json["conditions"] = Json::object();
    for (const auto& [part, condition] : conditions_of(circuit, settled))
        json["conditions"][part] = condition;
    return json.dump(2);
}

std::string reading_json(const instruments::Reading& reading) {
    const auto number = [&](double value) {
        return reading.valid && std::isfinite(value) ? Json(value) : Json(nullptr);
    };
    Json json;
    json["instrument"] = reading.instrument;
    json["at"] = reading.at;
    json["against"] = reading.against.empty() ? Json(nullptr) : Json(reading.against);
    json["value"] = number(reading.value);
    json["low"] = number(reading.low);
    json["high"] = number(reading.high);
    json["unit"] = reading.unit;
    json["shown"] = reading.shown;
    json["cautions"] = reading.cautions;
    return json.dump(2);
}

}  // namespace halfsplit::view
