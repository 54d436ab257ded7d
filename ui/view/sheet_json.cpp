#include <nlohmann/json.hpp>

#include "engine/base/index.h"
#include "ui/view/sheet_text.h"

namespace halfsplit::view {

using diagnosis::SheetRow;
using model::Circuit;
using Json = nlohmann::ordered_json;

namespace {

Json id_or_null(const Circuit& circuit, int part) {
    return part < 0 ? Json(nullptr) : Json(circuit.parts[at(part)].id);
}

Json row_json(const Circuit& circuit, const SheetRow& row) {
    const SheetCells cells = sheet_cells(circuit, row);
    const bool is_sign = row.kind == SheetRow::Kind::sign;
    const bool has_limits = !is_sign && !row.floating;
    Json json;
    json["at"] = row.at;
    json["against"] = row.against;
    json["instrument"] = row.instrument;
    json["part"] = cells.part;
    json["place"] = row.place < 0 ? "" : circuit.places[at(row.place)].id;
    json["wires"] = Json::array();
    for (const int wire : row.wires) json["wires"].push_back(circuit.wires[at(wire)].id);
    json["expected"] = is_sign ? Json(cells.expected) : Json(row.expected);
    json["low"] = has_limits ? Json(row.low) : Json(nullptr);
    json["high"] = has_limits ? Json(row.high) : Json(nullptr);
    json["unit"] = is_sign ? "" : "V";
    json["floating"] = row.floating;
    json["pulses"] = row.pulses;
    json["limits_are_a_guide"] = row.bends;
    json["allowed"] = row.practice == diagnosis::Practice::none ? Json(nullptr) : Json(row.allowed_v);
    json["fuse"] = id_or_null(circuit, row.fuse);
    json["ground"] = id_or_null(circuit, row.ground);
    return json;
}

Json doubt_json(const Circuit& circuit, const diagnosis::SheetDoubt& doubt) {
    const model::Part& part = circuit.parts[at(doubt.part)];
    return {{"part", part.id},
            {"now", part.positions[at(doubt.now)].id},
            {"then", part.positions[at(doubt.then)].id},
            {"chance", doubt.chance}};
}

}  // namespace

std::string sheet_json(const Circuit& circuit, const diagnosis::Sheet& sheet) {
    Json json;
    json["circuit"] = circuit.id;
    json["title"] = circuit.title;
    json["cautions"] = Json::array();
    for (const diagnosis::Caution& caution : sheet.cautions)
        json["cautions"].push_back(caution_text(circuit, caution));
    json["states"] = Json::array();
    for (const diagnosis::StateSheet& each : sheet.states) {
        const model::OperatingState& where = circuit.states[at(each.state)];
        Json state;
        state["state"] = where.id;
        state["title"] = where.title;
        state["steps"] = steps_text(circuit, where);
        state["doubts"] = Json::array();
        for (const diagnosis::SheetDoubt& doubt : each.doubts)
            state["doubts"].push_back(doubt_json(circuit, doubt));
        state["rows"] = Json::array();
        for (const SheetRow& row : each.rows) state["rows"].push_back(row_json(circuit, row));
        json["states"].push_back(std::move(state));
    }
    return json.dump(2);
}

}  // namespace halfsplit::view
