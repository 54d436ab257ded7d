#include "ui/window/frame/widgets.h"

#include <imgui.h>
#include <imgui_stdlib.h>

#include <array>
#include <cstdio>

#include "engine/base/index.h"
#include "ui/view/unit_signs.h"
#include "ui/window/frame/colours.h"
#include "ui/window/frame/wrapped.h"

namespace halfsplit::window {

namespace {

std::string label_with_id(const std::string& label, const std::string& name) {
    return label + "###" + name;
}

ImVec4 colour(Colour colour) {
    return ImGui::ColorConvertU32ToFloat4(packed(colour));
}

}  // namespace

std::string on_one_line(const std::string& text) {
    std::string line;
    for (const char letter : text) {
        const bool is_space = letter == ' ' || letter == '\n' || letter == '\t' || letter == '\r';
        if (!is_space)
            line += letter;
        else if (!line.empty() && line.back() != ' ')
            line += ' ';
    }
    return line;
}

void name_last(const Frame& frame, const std::string& name) {
    const ImVec2 from = ImGui::GetItemRectMin();
    const ImVec2 to = ImGui::GetItemRectMax();
    if (ImGui::IsItemVisible()) frame.landmarks->put(name, {from.x, from.y, to.x, to.y});
}

void drawer(const Frame& frame, const std::string& name, const std::string& title, bool open_at_first,
            const std::function<void()>& fill) {
    const bool is_open =
        ImGui::CollapsingHeader(label_with_id(title, "drawer:" + name).c_str(),
                                open_at_first ? ImGuiTreeNodeFlags_DefaultOpen : ImGuiTreeNodeFlags_None);
    name_last(frame, "drawer:" + name);
    if (!is_open) return;
    ImGui::PushID(name.c_str());
    ImGui::Spacing();
    fill();
    ImGui::Spacing();
    ImGui::PopID();
}

bool button(const Frame& frame, const std::string& name, const std::string& label) {
    const bool is_pushed = ImGui::Button(label_with_id(label, name).c_str());
    name_last(frame, name);
    return is_pushed;
}

bool wide_button(const Frame& frame, const std::string& name, const std::string& label) {
    const bool is_pushed = ImGui::Button(label_with_id(label, name).c_str(), {-1, 0});
    name_last(frame, name);
    return is_pushed;
}

bool choice(const Frame& frame, const std::string& name, const std::string& label, bool is_chosen) {
    // Told by the frame around it as well, not by the colour alone.
    if (is_chosen) {
        ImGui::PushStyleColor(ImGuiCol_Button, colour(frame.theme.mark));
        ImGui::PushStyleColor(ImGuiCol_ButtonHovered, colour(frame.theme.mark));
        ImGui::PushStyleColor(ImGuiCol_Text, colour(frame.theme.paper));
        ImGui::PushStyleVar(ImGuiStyleVar_FrameBorderSize, frame.px(2));
    }
    const bool is_pushed = ImGui::Button(label_with_id(label, name).c_str());
    if (is_chosen) {
        ImGui::PopStyleVar();
        ImGui::PopStyleColor(3);
    }
    name_last(frame, name);
    return is_pushed && !is_chosen;
}

bool tick(const Frame& frame, const std::string& name, const std::string& label, bool& is_ticked) {
    const bool is_changed = ImGui::Checkbox(label_with_id(label, name).c_str(), &is_ticked);
    name_last(frame, name);
    return is_changed;
}

bool pick_from(const Frame& frame, const std::string& name, const std::vector<std::string>& labels,
               int& chosen) {
    bool is_changed = false;
    ImGui::SetNextItemWidth(-1);
    const bool is_valid = chosen >= 0 && chosen < static_cast<int>(labels.size());
    const bool is_open =
        ImGui::BeginCombo(("###" + name).c_str(), is_valid ? labels[at(chosen)].c_str() : "choose");
    name_last(frame, name);
    if (!is_open) return false;
    for (int i = 0; i < static_cast<int>(labels.size()); ++i) {
        ImGui::PushID(i);
        if (ImGui::Selectable(labels[at(i)].c_str(), i == chosen)) {
            is_changed = chosen != i;
            chosen = i;
        }
        name_last(frame, name + ":" + std::to_string(i));
        if (i == chosen) ImGui::SetItemDefaultFocus();
        ImGui::PopID();
    }
    ImGui::EndCombo();
    return is_changed;
}

bool type_in(const Frame& frame, const std::string& name, const std::string& prompt, std::string& text) {
    ImGui::SetNextItemWidth(-1);
    const bool is_entered = ImGui::InputTextWithHint(("###" + name).c_str(), prompt.c_str(), &text,
                                                     ImGuiInputTextFlags_EnterReturnsTrue);
    name_last(frame, name);
    return is_entered;
}

bool slide(const Frame& frame, const std::string& name, double& value, double least, double most,
           const std::string& unit) {
    // The number stands beside: within, the grip would cover it.
    std::array<char, 48> number{};
    std::snprintf(number.data(), number.size(), most - least < 20 ? "%.1f %s" : "%.0f %s", value,
                  view::unit_sign(unit).c_str());
    const float width = ImGui::GetContentRegionAvail().x - frame.px(86);
    ImGui::SetNextItemWidth(width);
    const std::string format;
    const bool is_moved = ImGui::SliderScalar(("###" + name).c_str(), ImGuiDataType_Double, &value, &least,
                                              &most, format.c_str(), ImGuiSliderFlags_AlwaysClamp);
    name_last(frame, name);
    ImGui::SameLine();
    ImGui::TextUnformatted(number.data());
    return is_moved;
}

void words(const std::string& text) {
    // A tip has no width before its words are in it.
    const float letter = ImGui::GetFontSize();
    const bool has_width = ImGui::GetContentRegionAvail().x > 6 * letter;
    const float width = has_width ? ImGui::GetContentRegionAvail().x : 24 * letter;
    // ImGui still parts a single word that is too wide.
    ImGui::PushTextWrapPos(ImGui::GetCursorPosX() + width);
    ImGui::TextUnformatted(wrapped(view::with_unit_signs(on_one_line(text)), width).c_str());
    ImGui::PopTextWrapPos();
}

void soft_words(const Frame& frame, const std::string& text) {
    ImGui::PushStyleColor(ImGuiCol_Text, colour(frame.theme.soft_text));
    words(text);
    ImGui::PopStyleColor();
}

void caution(const Frame& frame, const std::string& text) {
    ImGui::PushStyleColor(ImGuiCol_Text, colour(frame.theme.caution));
    words("! " + text);
    ImGui::PopStyleColor();
}

}  // namespace halfsplit::window
