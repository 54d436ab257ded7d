#include "ui/view/point_rows.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "engine/base/number.h"
#include "ui/view/plug_drop.h"

namespace halfsplit::view {

using model::Circuit;
using simulation::Settled;

namespace {

/// Below this a path counts as carrying nothing: no workshop instrument sees it.
constexpr double kNoCurrentA = 5e-7;

std::map<std::string, std::string> wires_by_point(const Circuit& circuit) {
    std::map<std::string, std::string> by_point;
    for (const model::Wire& wire : circuit.wires)
        for (const model::PinRef end : {wire.from, wire.to}) {
            std::string& text = by_point[circuit.point_name(end)];
            text += (text.empty() ? "" : ", ") + wire_text(wire);
        }
    return by_point;
}

double potential(const Settled& settled, const std::string& point) {
    return settled.point.potential_at(settled.network.point_nodes.find(point)->second);
}

bool floats(const Settled& settled, const std::string& point) {
    const int node = settled.network.point_nodes.find(point)->second;
    return node != network::kBody && settled.point.floating[static_cast<std::size_t>(node)];
}

std::string place_title(const Circuit& circuit, const model::Part& part) {
    const model::Place* place = circuit.find_place(part.place);
    return place == nullptr ? "" : place->title;
}

}  // namespace

std::string wire_text(const model::Wire& wire) {
    std::string text = wire.base_colour + wire.tracer_colour;
    if (wire.area_mm2 > 0) text += (text.empty() ? "" : " ") + number_text(wire.area_mm2);
    return text;
}

std::vector<PointRow> point_rows(const Circuit& circuit, const Settled& settled) {
    const std::map<std::string, std::string> wires = wires_by_point(circuit);
    std::vector<PointRow> rows;
    for (const std::string& point : settled.network.points) {
        const model::Part& part = circuit.parts[static_cast<std::size_t>(circuit.find_pin(point)->part)];
        PointRow row;
        row.point = point;
        row.title = part.title;
        row.place = place_title(circuit, part);
        if (const auto found = wires.find(point); found != wires.end()) row.wires = found->second;
        row.volts = potential(settled, point);
        row.floating = floats(settled, point);
        const double inside = potential(settled, point + "@part");
        const bool parted = row.floating != floats(settled, point + "@part");
        if (part.plugged && (parted || std::abs(inside - row.volts) > kPlugDropWorthShowingV))
            row.part_side_volts = inside;
        rows.push_back(std::move(row));
    }
    return rows;
}

std::vector<CurrentRow> current_rows(const Circuit& circuit, const Settled& settled) {
    std::vector<CurrentRow> rows;
    std::map<std::string, std::size_t> row_of;
    for (std::size_t i = 0; i < settled.network.branches.size(); ++i) {
        const network::NetworkBranch& branch = settled.network.branches[i];
        if (branch.source == network::BranchSource::contact) continue;
        const auto [found, is_new] = row_of.emplace(branch.name, rows.size());
        if (is_new) {
            CurrentRow row;
            row.name = branch.name;
            row.is_wire = branch.wire >= 0 && branch.source == network::BranchSource::wire;
            if (branch.part >= 0) row.title = circuit.parts[static_cast<std::size_t>(branch.part)].title;
            if (row.is_wire) row.title = wire_text(circuit.wires[static_cast<std::size_t>(branch.wire)]);
            rows.push_back(std::move(row));
        }
        CurrentRow& row = rows[found->second];
        const double here_a = settled.point.current_a[i];
        const double drop_v = settled.point.potential_at(branch.electrical.from) -
                              settled.point.potential_at(branch.electrical.to);
        row.amperes += here_a;
        if (is_new || std::abs(here_a) > kNoCurrentA) row.drop_v = drop_v;
        row.watts += here_a * drop_v;
    }
    return rows;
}

std::vector<std::pair<std::string, std::string>> conditions_of(const Circuit& circuit,
                                                               const Settled& settled) {
    std::vector<std::pair<std::string, std::string>> conditions;
    for (std::size_t i = 0; i < circuit.parts.size(); ++i) {
        const model::Part& part = circuit.parts[i];
        if (part.positions.size() < 2) continue;
        conditions.emplace_back(part.id,
                                part.positions[static_cast<std::size_t>(settled.point.conditions[i])].id);
    }
    return conditions;
}

std::string conditions_text(const Circuit& circuit, const Settled& settled) {
    std::string text;
    for (const auto& [part, condition] : conditions_of(circuit, settled)) {
        if (circuit.find_part(part)->positions.front().id == condition) continue;
        if (!text.empty()) text += ", ";
        text.append(part).append(" ").append(condition);
    }
    return text;
}

Table point_table(const std::vector<PointRow>& rows, const std::vector<PointRow>* expected) {
    Table table;
    table.columns = {{"point"}, {"on"}, {"place"}, {"wires"}};
    if (expected != nullptr) table.columns.push_back({"expected", Table::Align::right});
    table.columns.push_back({expected == nullptr ? "volts" : "with the fault", Table::Align::right});
    table.columns.push_back({""});
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const PointRow& row = rows[i];
        std::vector<std::string> cells{row.point, row.title, row.place, row.wires};
        if (expected != nullptr)
            cells.push_back((*expected)[i].floating ? "floating" : volts_text((*expected)[i].volts));
        cells.push_back(row.floating ? "floating" : volts_text(row.volts));
        cells.push_back(row.part_side_volts ? "behind the plug: " + volts_text(*row.part_side_volts) : "");
        table.rows.push_back(std::move(cells));
    }
    return table;
}

Table current_table(const std::vector<CurrentRow>& rows) {
    Table table;
    table.columns = {{"through"},
                     {"which is"},
                     {"current", Table::Align::right},
                     {"drop", Table::Align::right},
                     {"power", Table::Align::right}};
    for (const CurrentRow& row : rows) {
        if (std::abs(row.amperes) < kNoCurrentA) continue;
        table.rows.push_back({row.name, row.title, amperes_text(row.amperes), volts_text(row.drop_v),
                              fixed(row.watts, 2) + " W"});
    }
    return table;
}

}  // namespace halfsplit::view
