#include "ui/window/practise/action_line.h"

#include <imgui.h>
#include <imgui_stdlib.h>

#include <algorithm>
#include <cctype>
#include <utility>

#include "ui/window/frame/widgets.h"

namespace halfsplit::window {

namespace {

constexpr std::size_t kMostOffered = 6;

std::size_t last_word_at(const std::string& text) {
    const std::size_t space = text.find_last_of(" ,");
    return space == std::string::npos ? 0 : space + 1;
}

bool begins_with(const std::string& word, const std::string& begun) {
    return begun.size() <= word.size() &&
           std::equal(begun.begin(), begun.end(), word.begin(),
                      [](unsigned char a, unsigned char b) { return std::tolower(a) == std::tolower(b); });
}

/// The tab key: the line with its last word completed, by what is offered first.
int complete(ImGuiInputTextCallbackData* data) {
    const ActionLine& line = *static_cast<const ActionLine*>(data->UserData);
    const std::string text(data->Buf, static_cast<std::size_t>(data->BufTextLen));
    const std::vector<std::string> offered = line.completions(text, 1);
    if (offered.empty()) return 0;
    data->DeleteChars(0, data->BufTextLen);
    data->InsertChars(0, ActionLine::completed(text, offered.front()).c_str());
    return 0;
}

}  // namespace

void ActionLine::offer(std::vector<std::string> verbs, std::vector<std::string> names) {
    verbs_ = std::move(verbs);
    names_ = std::move(names);
    text_.clear();
}

std::vector<std::string> ActionLine::completions(const std::string& text, std::size_t most) const {
    const std::size_t begin = last_word_at(text);
    const std::string begun = text.substr(begin);
    std::vector<std::string> offered;
    for (const std::string& word : begin == 0 ? verbs_ : names_)
        if (offered.size() < most && word != begun && begins_with(word, begun)) offered.push_back(word);
    return offered;
}

std::string ActionLine::completed(const std::string& text, const std::string& word) {
    return text.substr(0, last_word_at(text)) + word + " ";
}

std::optional<std::string> ActionLine::draw(const Frame& frame) {
    if (wants_keyboard_) {
        ImGui::SetScrollHereY();
        ImGui::SetKeyboardFocusHere();
    }
    wants_keyboard_ = false;
    ImGui::SetNextItemWidth(-1);
    // With imgui_stdlib a callback is handed on with what it needs.
    const bool is_entered = ImGui::InputTextWithHint(
        "###action-line", "look, measure, set, inspect, mend ...", &text_,
        ImGuiInputTextFlags_EnterReturnsTrue | ImGuiInputTextFlags_CallbackCompletion, complete, this);
    name_last(frame, "action-line");
    std::optional<std::string> entered;
    if (is_entered && !text_.empty()) {
        entered = std::exchange(text_, "");
        wants_keyboard_ = true;
    }
    if (text_.empty()) return entered;
    for (const std::string& word : completions(text_, kMostOffered))
        if (button(frame, "offer:" + word, word)) {
            text_ = completed(text_, word);
            wants_keyboard_ = true;
        }
    return entered;
}

}  // namespace halfsplit::window
