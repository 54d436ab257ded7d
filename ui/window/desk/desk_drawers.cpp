#include <imgui.h>

#include "engine/base/index.h"
#include "ui/files/desktop_dialog.h"
#include "ui/files/shelf.h"
#include "ui/window/desk/desk.h"
#include "ui/window/frame/widgets.h"

namespace halfsplit::window {

namespace {

constexpr int kMostListed = 25;

}  // namespace

void Desk::empty_desk() {
    ImGui::PushFont(frame_.fonts.title);
    words("Halfsplit");
    ImGui::PopFont();
    words("Nothing is open yet. Choose a circuit or a job on the right.");
    for (const auto& each : modes_) {
        ImGui::Spacing();
        words(std::string(each->title()));
        soft_words(frame_, std::string(each->about()));
    }
}

void Desk::open_drawer() {
    if (type_in(frame_, "open:path", "a file: circuits/horn.circuit.xml", path_words_)) open(path_words_);
    if (choosing_.is_running())
        soft_words(frame_, "The desktop asks for a file ...");
    else if (dialog_ && button(frame_, "open:choose", "Look for a file ..."))
        choosing_.start("choosing a file",
                        [dialog = *dialog_](Progress&) { return files::choose_file(dialog); });
    if (to_open_.empty()) to_open_ = files::files_to_open(".");
    if (to_open_.empty()) soft_words(frame_, "There is no circuit and no job in this folder.");
    int listed = 0;
    for (const std::string& path : to_open_) {
        if (!path_words_.empty() && path.find(path_words_) == std::string::npos) continue;
        if (++listed > kMostListed) break;
        if (ImGui::Selectable(path.c_str(), path == path_)) open(path);
        name_last(frame_, "open:" + path);
    }
    if (listed > kMostListed) soft_words(frame_, "and more; type a part of the name");
}

void Desk::key_list() {
    if (ImGui::BeginTable("keys", 2, ImGuiTableFlags_SizingStretchProp)) {
        ImGui::TableSetupColumn("key", ImGuiTableColumnFlags_WidthStretch, 2);
        ImGui::TableSetupColumn("does", ImGuiTableColumnFlags_WidthStretch, 3);
        const auto row = [](const std::string& key, const std::string& does) {
            ImGui::TableNextRow();
            ImGui::TableNextColumn();
            words(key);
            ImGui::TableNextColumn();
            words(does);
        };
        row("F1", "this list");
        for (int i = 0; i < static_cast<int>(modes_.size()); ++i)
            row("F" + std::to_string(i + 2), std::string(modes_[at(i)]->title()));
        row("Ctrl F", "find a part, a wire or a point");
        row("F, + and -", "all of the diagram; closer, farther");
        row("Page up, Page down", "another page of the diagram");
        row("G, Backspace", "where this goes on on another page; back");
        row("Ctrl + and Ctrl -", "larger and smaller letters");
        row("Ctrl D", "light or dark");
        row("Tab, arrows, Space", "to a button or field, and push it");
        row("Ctrl Q", "leave");
        for (const auto& [key, does] : mode().key_list()) row(key, does);
        ImGui::EndTable();
    }
    if (button(frame_, "keys:away", "Put the list away")) shows_keys_ = false;
}

}  // namespace halfsplit::window
