#include <imgui.h>

#include <algorithm>

#include "ui/view/advice_text.h"
#include "ui/window/diagnose/diagnose_mode.h"
#include "ui/window/diagnose/room.h"
#include "ui/window/frame/colours.h"
#include "ui/window/frame/widgets.h"

namespace halfsplit::window {

namespace {

/// So many are told before somebody asks for all.
constexpr std::size_t kToldAtFirst = 4;
constexpr double kWorthSaying = 0.005;

/// A bar as long as the share, in a frame as long as all.
void bar(const Frame& frame, double share) {
    const ImVec2 from = ImGui::GetCursorScreenPos();
    const ImVec2 size{frame.px(76), ImGui::GetTextLineHeight()};
    const float inset = frame.px(3);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const ImVec2 top{from.x, from.y + inset};
    list.AddRectFilled(top, {from.x + size.x * static_cast<float>(share), from.y + size.y - inset},
                       packed(frame.theme.mark));
    list.AddRect(top, {from.x + size.x, from.y + size.y - inset},
                 packed(mixed(frame.theme.drawer, frame.theme.text, 0.5)));
    ImGui::Dummy(size);
}

}  // namespace

void DiagnoseMode::next_drawer(const Frame& frame) {
    const auto& conclusion = reasoning_.conclusion();
    if (!conclusion) {
        soft_words(frame, "Comes as soon as the faults are predicted.");
        return;
    }
    if (!conclusion->trouble.empty()) return soft_words(frame, conclusion->trouble);
    words(conclusion->next.sentence);
    name_last(frame, "next");
    bool shows_meaning = shows_meaning_.value_or(ImGui::GetWindowHeight() > frame.px(kRoomyPx));
    if (conclusion->next.test) {
        if (button(frame, "next:take", "Take it (N)")) take_next_test();
        ImGui::SameLine();
        if (tick(frame, "next:meaning", "what it would mean", shows_meaning)) shows_meaning_ = shows_meaning;
    }
    if (reasoning_.is_concluding()) {
        ImGui::SameLine();
        soft_words(frame, "weighing …");
    }
    if (!shows_meaning) return;
    for (const std::string& outcome : conclusion->next.outcomes) {
        ImGui::Bullet();
        ImGui::SameLine();
        soft_words(frame, outcome);
    }
}

/// One line, and below it, for the one that was clicked, all that is known about it.
void DiagnoseMode::suspect(const Frame& frame, const SuspectLine& line, int number) {
    ImGui::PushID(number);
    const bool is_open = open_suspect_ == line.name;
    const ImVec2 from = ImGui::GetCursorScreenPos();
    if (ImGui::Selectable("###suspect", is_open, 0, {0, ImGui::GetTextLineHeight()})) {
        open_suspect_ = is_open ? "" : line.name;
        if (!line.things.empty()) to_show_ = chosen_ = pick_of_thing(line.things.front());
    }
    name_last(frame, "suspect:" + std::to_string(number));
    const ImVec2 after = ImGui::GetCursorScreenPos();
    ImGui::SetCursorScreenPos(from);
    bar(frame, line.probability);
    ImGui::SameLine();
    fitted_text(line.share + "  " + line.name, ImGui::GetContentRegionAvail().x, frame.theme.text);
    ImGui::SetCursorScreenPos(after);
    if (is_open) about_suspect(frame, line);
    ImGui::PopID();
}

void DiagnoseMode::about_suspect(const Frame& frame, const SuspectLine& line) {
    std::string about = line.what;
    if (!line.where.empty()) about += (about.empty() ? "" : "; ") + line.where;
    if (!about.empty()) words(about);
    if (!line.reason.empty())
        soft_words(frame, line.reason + (line.contradictions.empty() ? "" : "; contradicted by"));
    for (const std::string& each : line.contradictions) {
        ImGui::Bullet();
        ImGui::SameLine();
        soft_words(frame, each);
    }
    for (const std::string& fault : line.faults) {
        bool is_cleared = false;
        const std::string label =
            line.faults.size() == 1 ? "looked for, is not there" : fault + " is not there";
        if (!tick(frame, "clear:" + fault, label, is_cleared)) continue;
        cleared_.push_back(fault);
        know_more();
    }
    ImGui::Separator();
}

void DiagnoseMode::cleared_list(const Frame& frame) {
    for (std::size_t i = 0; i < cleared_.size(); ++i) {
        bool is_cleared = true;
        if (!tick(frame, "cleared:" + cleared_[i], cleared_[i] + ": is not there", is_cleared)) continue;
        cleared_.erase(cleared_.begin() + static_cast<long>(i));
        return know_more();
    }
}

void DiagnoseMode::suspects_drawer(const Frame& frame) {
    const auto& conclusion = reasoning_.conclusion();
    if (!conclusion) soft_words(frame, "Come as soon as the faults are predicted.");
    if (conclusion) {
        if (!conclusion->single_explains)
            caution(frame, "No single fault explains these readings well: two faults, or a wrong reading.");
        const std::size_t all = conclusion->suspects.size();
        const std::size_t told = shows_all_suspects_ ? all : std::min(all, kToldAtFirst);
        double rest = conclusion->others;
        for (std::size_t i = 0; i < told; ++i) suspect(frame, conclusion->suspects[i], static_cast<int>(i));
        for (std::size_t i = told; i < all; ++i) rest += conclusion->suspects[i].probability;
        if (rest > kWorthSaying) soft_words(frame, view::share_text(rest) + " all others together");
        if (conclusion->other_pairs > kWorthSaying)
            soft_words(frame, view::share_text(conclusion->other_pairs) +
                                  " two faults at once, not worked out one by one");
        if (all > kToldAtFirst)
            tick(frame, "suspects:all", "all " + std::to_string(all), shows_all_suspects_);
        for (const std::string& alike : conclusion->alike)
            if (told == all) soft_words(frame, "Alike in every reading: " + alike + ".");
    }
    cleared_list(frame);
}

}  // namespace halfsplit::window
