#include <imgui.h>

#include <algorithm>
#include <array>
#include <set>

#include "engine/base/index.h"
#include "engine/model/structure.h"
#include "ui/view/table.h"
#include "ui/window/frame/widgets.h"
#include "ui/window/study/study_mode.h"

/// What should be found in the state that was chosen, and the way of the current.
namespace halfsplit::window {

using view::ExpectedRow;

namespace {

/// "11.9 … 12.6 V", as a sheet has it.
std::string limits_with_unit(const ExpectedRow& row) {
    return row.cells.limits + " " + row.cells.unit;
}

/// Of a wire, or of those that end at a point or part: a sheet has one of a wire's ends where both read the
/// same.
std::set<std::string> ends_of_wires(const model::Circuit& circuit, const std::string& name) {
    std::set<std::string> ends;
    for (const model::Wire& wire : circuit.wires) {
        const std::string from = circuit.point_name(wire.from);
        const std::string to = circuit.point_name(wire.to);
        const bool is_on_part =
            circuit.parts[at(wire.from.part)].id == name || circuit.parts[at(wire.to.part)].id == name;
        if (wire.id == name || from == name || to == name || is_on_part) ends.insert({from, to});
    }
    return ends;
}

}  // namespace

std::vector<const ExpectedRow*> StudyMode::expected_at(const std::string& name) const {
    std::vector<const ExpectedRow*> rows;
    if (expected_ == nullptr) return rows;
    const auto add_if = [&](const auto& is_it) {
        for (const ExpectedRow& row : expected_->rows)
            if (row.has_limits && row.finding.kind == diagnosis::Finding::Kind::voltage &&
                row.finding.against == model::kBodyId && is_it(row))
                rows.push_back(&row);
    };
    const model::Circuit& circuit = *drawn_->circuit;
    add_if([&](const ExpectedRow& row) {
        return row.finding.at == name || circuit.parts[at(row.part)].id == name;
    });
    if (!rows.empty()) return rows;
    const std::set<std::string> ends = ends_of_wires(circuit, name);
    add_if([&](const ExpectedRow& row) { return ends.contains(row.finding.at); });
    return rows;
}

std::string StudyMode::found_and_expected(const ExpectedRow& row) const {
    const double now_v = bench_->potential_v(row.finding.at);
    const view::Fit fit = view::fit_of(row, now_v);
    return view::volts_text(now_v) + ", should be " + limits_with_unit(row) + " " +
           std::string(view::fit_sign(fit)) +
           (fit == view::Fit::as_expected ? "" : " " + std::string(view::fit_words(fit)));
}

void StudyMode::look_around() {
    const bool is_asked = chosen_ || leads_.is_placed();
    expected_ = state_ < 0 || !is_asked ? nullptr : sheets_.of(state_);
    way_ = chosen_ ? way_through(*bench_, chosen_->name) : Way();
}

void StudyMode::mark_chosen(Marks& marks) const {
    if (!chosen_) return;
    if (shows_way_) marks.way = way_.numbers;
    if (has_left_state_) return;
    for (const ExpectedRow* row : expected_at(chosen_->name))
        marks.notes[row->finding.at] = found_and_expected(*row);
}

void StudyMode::expected_words(const Frame& frame) const {
    const std::vector<const ExpectedRow*> rows = expected_at(chosen_->name);
    if (expected_ == nullptr) return soft_words(frame, "Working out what should be found here …");
    if (rows.empty()) soft_words(frame, "The sheet has nothing to be measured here.");
    if (has_left_state_)
        soft_words(frame,
                   "What should be found holds for the state that was chosen; it has been left since.");
    for (const ExpectedRow* row : rows) words(row->finding.at + ": " + found_and_expected(*row));
    for (const std::string& doubt : expected_->doubts) soft_words(frame, doubt);
}

void StudyMode::way_drawer(const Frame& frame) {
    if (!chosen_) return soft_words(frame, "Click a part, a point or a wire.");
    tick(frame, "way:shown", "over the diagram as well", shows_way_);
    words(way_.heading);
    if (!ImGui::BeginTable("way", 4, ImGuiTableFlags_SizingFixedFit | ImGuiTableFlags_RowBg)) return;
    ImGui::TableSetupColumn("number");
    ImGui::TableSetupColumn("what", ImGuiTableColumnFlags_WidthStretch);
    ImGui::TableSetupColumn("volts");
    ImGui::TableSetupColumn("note");
    int number = 0;
    for (const Way::Stop& stop : way_.stops) {
        ImGui::TableNextRow();
        for (const std::string& cell :
             std::array{"(" + std::to_string(++number) + ")", stop.what, stop.volts, stop.note}) {
            ImGui::TableNextColumn();
            words(cell);
        }
    }
    ImGui::EndTable();
}

}  // namespace halfsplit::window
