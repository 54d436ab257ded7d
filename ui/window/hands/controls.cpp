#include "ui/window/hands/controls.h"

#include <imgui.h>

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "ui/window/frame/widgets.h"

namespace halfsplit::window {

namespace {

std::string label_of(const model::Position& position) {
    return position.title.empty() ? position.id : position.title;
}

bool springs_back(const model::Part& part, const model::Position& position) {
    return position.momentary ||
           (part.kind->element == "push-button" && position.id != part.positions.front().id);
}

/// Wraps buttons at the drawer's edge.
void keep_on_line(const Frame& frame, const std::string& next_label) {
    const float needed = ImGui::CalcTextSize(next_label.c_str()).x + 2 * ImGui::GetStyle().FramePadding.x;
    ImGui::SameLine();
    if (ImGui::GetContentRegionAvail().x < needed + frame.px(4)) ImGui::NewLine();
}

std::optional<Setting> position_button(const Frame& frame, const model::Part& part,
                                       const model::Position& position, bool is_there, bool in_steps) {
    const std::string name = "control:" + part.id + "=" + position.id;
    if (in_steps) {
        if (choice(frame, name, label_of(position), is_there))
            return Setting{part.id, position.id, springs_back(part, position)};
        return std::nullopt;
    }
    if (springs_back(part, position)) {
        choice(frame, name, label_of(position) + " (hold)", is_there);
        if (ImGui::IsItemActivated()) return Setting{part.id, position.id};
        if (ImGui::IsItemDeactivated()) return Setting{part.id, part.positions.front().id};
        return std::nullopt;
    }
    if (choice(frame, name, label_of(position), is_there)) return Setting{part.id, position.id};
    return std::nullopt;
}

std::optional<Setting> quantity_control(const Frame& frame, const model::Quantity& quantity, double now) {
    words(quantity.title);
    double value = now;
    if (slide(frame, "control:" + quantity.id, value, quantity.min, quantity.max, quantity.unit))
        return Setting{quantity.id, number_text(value)};
    return std::nullopt;
}

}  // namespace

bool is_control(const model::Part& part) {
    if (part.kind->operation != model::Operation::person || part.positions.size() < 2) return false;
    // A mechanism operates those that name one.
    for (std::size_t word = 0; word < part.kind->words.size(); ++word)
        if (part.kind->words[word].name == "operated-by") return part.words[word].empty();
    return true;
}

std::optional<Setting> control(const Frame& frame, const model::Circuit& circuit, int part,
                               const Standing& standing) {
    const model::Part& each = circuit.parts[at(part)];
    std::optional<Setting> setting;
    words(each.id + "  " + each.title);
    for (int i = 0; i < static_cast<int>(each.positions.size()); ++i) {
        const model::Position& position = each.positions[at(i)];
        const bool is_held = springs_back(each, position) && !standing.in_steps;
        if (i > 0) keep_on_line(frame, label_of(position) + (is_held ? " (hold)" : ""));
        if (auto here = position_button(frame, each, position, (*standing.conditions)[at(part)] == i,
                                        standing.in_steps))
            setting = here;
    }
    return setting;
}

std::optional<Setting> controls(const Frame& frame, const model::Circuit& circuit, const Standing& standing) {
    std::optional<Setting> setting;
    for (int part = 0; part < static_cast<int>(circuit.parts.size()); ++part) {
        if (!is_control(circuit.parts[at(part)])) continue;
        if (auto here = control(frame, circuit, part, standing)) setting = here;
    }
    for (const model::Quantity& quantity : circuit.quantities) {
        const auto now = standing.quantities->find(quantity.id);
        const double value = now == standing.quantities->end() ? quantity.value : now->second;
        if (auto here = quantity_control(frame, quantity, value)) setting = here;
    }
    return setting;
}

}  // namespace halfsplit::window
