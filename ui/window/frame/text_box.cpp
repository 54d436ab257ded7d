#include "ui/window/frame/text_box.h"

#include <imgui.h>
#include <imgui_stdlib.h>

#include <algorithm>

#include "ui/window/frame/widgets.h"
#include "ui/window/frame/wrapped.h"

namespace halfsplit::window {

void write_in(const Frame& frame, const std::string& name, std::string& text) {
    const ImGuiStyle& style = ImGui::GetStyle();
    const float width = ImGui::GetContentRegionAvail().x - 2 * style.FramePadding.x - style.ScrollbarSize;
    std::string lines = wrapped(on_one_line(text), width);
    const auto breaks = std::ranges::count(lines, '\n');
    const float height =
        static_cast<float>(breaks + 1) * ImGui::GetTextLineHeight() + 2 * style.FramePadding.y;
    if (ImGui::InputTextMultiline(("###" + name).c_str(), &lines, {-1, height})) text = on_one_line(lines);
    name_last(frame, name);
}

void write_several(const Frame& frame, const std::string& name, std::vector<std::string>& texts) {
    texts.emplace_back();
    for (std::size_t i = 0; i < texts.size(); ++i)
        write_in(frame, name + ":" + std::to_string(i + 1), texts[i]);
    // Boxes keep their names while somebody types in one of them.
    if (!ImGui::IsAnyItemActive())
        std::erase(texts, "");
    else if (texts.back().empty())
        texts.pop_back();
}

}  // namespace halfsplit::window
