#include "ui/window/diagnose/room.h"

#include <imgui.h>

#include "ui/window/frame/colours.h"

namespace halfsplit::window {

std::string fitted(const std::string& text, float width_px) {
    const auto width_of = [](const std::string& each) { return ImGui::CalcTextSize(each.c_str()).x; };
    if (width_of(text) <= width_px) return text;
    std::string shorter = text;
    while (!shorter.empty() && width_of(shorter + "\u2026") > width_px) {
        // A letter of UTF-8 goes as a whole: its further bytes begin with binary 10.
        while (!shorter.empty() && (static_cast<unsigned char>(shorter.back()) & 0xC0U) == 0x80U)
            shorter.pop_back();
        if (!shorter.empty()) shorter.pop_back();
    }
    return shorter + "\u2026";
}

void fitted_text(const std::string& text, float width_px, view::diagram::Colour colour) {
    ImGui::PushStyleColor(ImGuiCol_Text, packed(colour));
    ImGui::TextUnformatted(fitted(text, width_px).c_str());
    ImGui::PopStyleColor();
}

}  // namespace halfsplit::window
