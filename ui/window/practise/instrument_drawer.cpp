#include <imgui.h>

#include <algorithm>
#include <array>

#include "engine/base/index.h"
#include "ui/window/frame/widgets.h"
#include "ui/window/practise/possible.h"
#include "ui/window/practise/practise_mode.h"

namespace halfsplit::window {

using practice::Action;
using practice::Entry;
using practice::Verb;

namespace {

constexpr std::size_t kChannels = 4;
constexpr std::array kRecordSeconds{"0.1", "0.5", "1", "5", "10", "30"};

std::string with_commas(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& name : names) text += (text.empty() ? "" : ",") + name;
    return text;
}

}  // namespace

void PractiseMode::display(const Frame& frame) {
    const std::vector<Entry>& entries = job_->entries();
    const auto last = std::ranges::find(entries.rbegin(), entries.rend(), Verb::measure,
                                        [](const Entry& entry) { return entry.action.verb; });
    if (last == entries.rend() || last->observed.empty()) return;
    ImGui::PushFont(frame.fonts.title);
    words(last->observed.front().shown);
    name_last(frame, "display");
    ImGui::PopFont();
    soft_words(frame, last->observed.front().about + ", step " + std::to_string(last->number));
    for (const practice::Slip& slip : last->slips) caution(frame, slip.what + ". " + slip.why + ".");
    const auto change = std::ranges::find_if(
        last.base(), entries.end(), [](const Entry& entry) { return changes_vehicle(entry.action.verb); });
    if (change == entries.end()) return;
    words("taken before the vehicle was changed (step " + std::to_string(change->number) + ": " +
          practice::action_text(change->action) + ")");
}

void PractiseMode::instrument_drawer(const Frame& frame) {
    leads_drawer(frame, job_->scenario().instruments, leads_);
    if (leads_.is_placed()) {
        Action action{Verb::measure, {leads_.instrument(), leads_.leads().at}};
        if (leads_.has_second_lead()) action.arguments.push_back(leads_.leads().against);
        if (offers(frame, "measure", "Measure", action)) measure();
        ImGui::SameLine();
        if (button(frame, "lift", "Lift the leads")) leads_.lift();
    } else {
        soft_words(frame, leads_.hint());
    }
    if (came_in_ == "instrument" && !trouble_.empty()) caution(frame, trouble_);
    display(frame);
    const bool is_open = ImGui::TreeNode("Recorder###recorder");
    name_last(frame, "recorder");
    if (!is_open) return;
    recorder(frame);
    ImGui::TreePop();
}

void PractiseMode::recorder(const Frame& frame) {
    std::optional<std::size_t> taken_off;
    for (std::size_t i = 0; i < channels_.size(); ++i) {
        if (button(frame, "channel:off:" + channels_[i], "Take off")) taken_off = i;
        ImGui::SameLine();
        words(std::to_string(i + 1) + ": " + channels_[i]);
    }
    if (taken_off) channels_.erase(channels_.begin() + static_cast<std::ptrdiff_t>(*taken_off));
    const bool can_add = chosen_ && chosen_->kind != Pick::Kind::part && channels_.size() < kChannels &&
                         std::ranges::find(channels_, chosen_->name) == channels_.end();
    if (can_add && button(frame, "channel:add", "Put a channel on " + chosen_->name))
        channels_.push_back(chosen_->name);
    if (channels_.empty()) {
        soft_words(frame, "Click a point (its voltage) or a wire (its current), up to four.");
        came_of(frame, "recorder");
        return recording(frame);
    }
    std::vector<std::string> labels;
    labels.reserve(kRecordSeconds.size());
    for (const char* seconds : kRecordSeconds) labels.push_back(std::string(seconds) + " s");
    pick_from(frame, "record:seconds", labels, record_seconds_);
    const Action action{Verb::record, {with_commas(channels_), kRecordSeconds[at(record_seconds_)]}};
    if (offers(frame, "record", "Record", action)) act("recorder", action);
    came_of(frame, "recorder");
    recording(frame);
}

void PractiseMode::recording(const Frame& frame) {
    if (!job_->strip()) return;
    tick(frame, "recorder:shown", "the last recording below the diagram", shows_screen_);
    if (shows_screen_) screen_.readings(frame, *job_->strip());
}

bool PractiseMode::has_screen() const {
    return job_ && shows_screen_ && job_->strip() && !job_->session().is_over();
}

void PractiseMode::screen(const Frame& frame) {
    screen_.draw(frame, *job_->strip());
}

}  // namespace halfsplit::window
