#include "ui/window/frame/wrapped.h"

#include <imgui.h>

namespace halfsplit::window {

std::string wrapped(const std::string& text, float width_px) {
    std::string lines = text;
    std::size_t line = 0;
    std::size_t last_space = std::string::npos;
    for (std::size_t i = 0; i <= lines.size(); ++i) {
        if (i < lines.size() && lines[i] != ' ') continue;
        const bool fits = ImGui::CalcTextSize(lines.c_str() + line, lines.c_str() + i).x <= width_px;
        if (!fits && last_space != std::string::npos) {
            lines[last_space] = '\n';
            line = last_space + 1;
        }
        last_space = i;
    }
    return lines;
}

}  // namespace halfsplit::window
