#include "ui/window/diagnose/expected_table.h"

#include <imgui.h>
#include <imgui_stdlib.h>

#include <algorithm>

#include "engine/base/index.h"
#include "engine/diagnosis/sheet/measured.h"
#include "engine/model/structure.h"
#include "ui/view/readings_table.h"
#include "ui/view/unit_signs.h"
#include "ui/window/diagnose/room.h"
#include "ui/window/frame/colours.h"
#include "ui/window/frame/widgets.h"

namespace halfsplit::window {

using view::ExpectedRow;
using view::Fit;

namespace {

/// At 100 %.
constexpr double kFieldPx = 92;

std::string key_of(const ExpectedRow& row) {
    return std::to_string(row.state) + ":" + row_name(row);
}

/// "K2.85", "F7.1 to K2.30".
std::string where_text(const ExpectedRow& row) {
    const bool is_plain = row.cells.against.empty() || row.cells.against == model::kBodyId;
    return is_plain ? row.cells.at : row.cells.at + " to " + row.cells.against;
}

std::string what_text(const ExpectedRow& row) {
    std::string text = row.cells.part;
    if (!row.cells.wires.empty()) text += (text.empty() ? "" : ", ") + row.cells.wires;
    return text;
}

std::string expected_text(const ExpectedRow& row) {
    if (!row.is_predicted) return "not predicted yet";
    return row.cells.expected;
}

std::string limits_text(const ExpectedRow& row) {
    if (row.finding.kind == diagnosis::Finding::Kind::sign) return "not " + row.others;
    return row.cells.limits;
}

/// All that a row says, for who rests the mouse on it.
void tell_all(const Frame& frame, const ExpectedRow& row) {
    ImGui::BeginTooltip();
    ImGui::PushTextWrapPos(frame.px(340));
    words(where_text(row) + (row.cells.against == model::kBodyId ? " against body" : ""));
    words(what_text(row));
    words("expected " + expected_text(row) + (limits_text(row).empty() ? "" : "; " + limits_text(row)));
    if (!row.cells.allowed.empty()) words("practice allows " + row.cells.allowed);
    if (!row.cells.fuse.empty()) words("fed by " + row.cells.fuse);
    if (!row.cells.ground.empty()) words("on to ground " + row.cells.ground);
    ImGui::PopTextWrapPos();
    ImGui::EndTooltip();
}

std::string fit_text(Fit fit) {
    const std::string sign(view::fit_sign(fit));
    return (sign.empty() ? "" : sign + " ") + std::string(view::fit_words(fit));
}

}  // namespace

std::string row_name(const ExpectedRow& row) {
    const bool is_plain = row.cells.against.empty() || row.cells.against == model::kBodyId;
    return is_plain ? row.cells.at : row.cells.at + "-" + row.cells.against;
}

void ExpectedTable::clear() {
    entries_.clear();
    wanted_.reset();
}

bool ExpectedTable::is_wanted(const ExpectedRow& row) const {
    return wanted_ && wanted_->state == row.state && is_same_finding(wanted_->finding, row.finding);
}

void ExpectedTable::take(const model::Circuit& circuit, const ExpectedRow& row, const std::string& key,
                         const std::string& text, TableDeed& deed) {
    if (diagnosis::is_left_out(text)) {
        deed.taken_back = Spotted{row.state, row.finding};
        entries_.erase(key);
        return;
    }
    auto reading = view::read_entry(circuit, row, text);
    if (reading) {
        deed.taken = std::move(*reading);
        entries_.erase(key);
        return;
    }
    entries_[key] = {text, reading.error()};
    go_to({row.state, row.finding});
}

std::string ExpectedTable::taken_text(const model::Circuit& circuit, const ExpectedRow& row,
                                      const Notebook& notebook) {
    const diagnosis::FilledRow* reading = notebook.find({row.state, row.finding});
    return reading == nullptr ? "" : view::entry_text(circuit, row, reading->value);
}

void ExpectedTable::status(const Frame& frame, const ExpectedRow& row, const Notebook& notebook,
                           float right_px) const {
    const diagnosis::FilledRow* reading = notebook.find({row.state, row.finding});
    const bool is_open = entries_.contains(key_of(row));
    if (reading == nullptr && !is_open) return;
    const Fit fit = is_open ? Fit::not_judged : view::fit_of(row, reading->value);
    const std::string text = is_open ? "Enter takes it" : fit_text(fit);
    const bool is_off = fit != Fit::as_expected && fit != Fit::not_judged;
    ImGui::SetCursorScreenPos(
        {right_px - ImGui::CalcTextSize(text.c_str()).x, ImGui::GetCursorScreenPos().y});
    ImGui::PushStyleColor(ImGuiCol_Text, packed(is_off ? frame.theme.caution : frame.theme.text));
    ImGui::TextUnformatted(text.c_str());
    ImGui::PopStyleColor();
    name_last(frame, "fit:" + row_name(row));
}

void ExpectedTable::field(const Frame& frame, const model::Circuit& circuit, const ExpectedRow& row,
                          const Notebook& notebook, TableDeed& deed) {
    const std::string key = key_of(row);
    const std::string taken = taken_text(circuit, row, notebook);
    const auto entry = entries_.find(key);
    const std::string before = entry == entries_.end() ? taken : entry->second.text;
    std::string text = before;
    if (is_wanted(row)) {
        ImGui::SetKeyboardFocusHere();
        ImGui::SetScrollHereY(0.4F);
        wanted_.reset();
    }
    ImGui::SetNextItemWidth(frame.px(kFieldPx));
    const bool is_entered = ImGui::InputTextWithHint(
        "###field", row.cells.unit.empty() ? "seen" : view::unit_sign(row.cells.unit).c_str(), &text,
        ImGuiInputTextFlags_EnterReturnsTrue | ImGuiInputTextFlags_AutoSelectAll);
    name_last(frame, "field:" + row_name(row));
    if (text != before && text == taken)
        entries_.erase(key);
    else if (text != before)
        entries_[key] = {text, ""};
    if (is_entered) take(circuit, row, key, text, deed);
    const auto after = entries_.find(key);
    if (after == entries_.end() || after->second.trouble.empty()) return;
    caution(frame, after->second.trouble);
    name_last(frame, "trouble:" + row_name(row));
}

void ExpectedTable::row(const Frame& frame, const model::Circuit& circuit, const ExpectedRow& row,
                        const Notebook& notebook, TableDeed& deed) {
    ImGui::PushID(key_of(row).c_str());
    const ImVec2 from = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    if (ImGui::Selectable("###row", false, 0, {0, ImGui::GetTextLineHeight()})) deed.shown = row;
    name_last(frame, "row:" + row_name(row));
    if (ImGui::IsItemHovered()) tell_all(frame, row);
    const ImVec2 after = ImGui::GetCursorScreenPos();
    ImGui::SetCursorScreenPos(from);
    status(frame, row, notebook, from.x + width);
    const float room = (ImGui::GetCursorScreenPos().y > from.y ? ImGui::GetItemRectMin().x : from.x + width) -
                       2 * ImGui::GetStyle().ItemSpacing.x;
    ImGui::SetCursorScreenPos(from);
    fitted_text(where_text(row), room - from.x, frame.theme.text);
    ImGui::SameLine();
    fitted_text(what_text(row), room - ImGui::GetCursorScreenPos().x, frame.theme.soft_text);
    ImGui::SetCursorScreenPos(after);

    const float gap = ImGui::GetStyle().ItemSpacing.x;
    const float field_at = width - frame.px(kFieldPx);
    ImGui::AlignTextToFramePadding();
    const std::string expected = expected_text(row);
    const float expected_px = ImGui::CalcTextSize(expected.c_str()).x;
    fitted_text(expected, field_at - gap, frame.theme.text);
    if (const float left = field_at - expected_px - 2 * gap; left > 0) {
        ImGui::SameLine();
        fitted_text(limits_text(row), left, frame.theme.soft_text);
    }
    ImGui::SameLine(field_at);
    field(frame, circuit, row, notebook, deed);
    ImGui::Separator();
    ImGui::PopID();
}

TableDeed ExpectedTable::draw(const Frame& frame, const model::Circuit& circuit,
                              const std::vector<Group>& groups, const Notebook& notebook,
                              float most_height_px) {
    TableDeed deed;
    const float height = filled_px_ > 0 ? std::min(filled_px_, most_height_px) : most_height_px;
    ImGui::BeginChild("expected", {0, height}, false, ImGuiWindowFlags_None);
    const float top = ImGui::GetCursorPosY();
    for (const Group& group : groups) {
        if (group.rows.empty()) continue;
        ImGui::PushStyleColor(ImGuiCol_Text, packed(frame.theme.mark));
        words(group.heading);
        ImGui::PopStyleColor();
        for (const ExpectedRow* each : group.rows) row(frame, circuit, *each, notebook, deed);
    }
    filled_px_ = ImGui::GetCursorPosY() - top;
    ImGui::EndChild();
    return deed;
}

}  // namespace halfsplit::window
