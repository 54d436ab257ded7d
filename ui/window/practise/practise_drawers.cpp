#include <imgui.h>

#include <algorithm>
#include <array>
#include <optional>

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "ui/view/session_text.h"
#include "ui/view/table.h"
#include "ui/window/frame/widgets.h"
#include "ui/window/practise/possible.h"
#include "ui/window/practise/practise_mode.h"

namespace halfsplit::window {

using practice::Action;
using practice::Entry;
using practice::Verb;

namespace {

/// What comes below the log has to be within reach.
constexpr std::size_t kLogShown = 6;

}  // namespace

bool PractiseMode::offers(const Frame& frame, const std::string& name, const std::string& label,
                          const Action& action) {
    return button(frame, name, with_minutes(label, minutes_for(job_->session(), action)));
}

void PractiseMode::entry_block(const Frame& frame, const Entry& entry) {
    const view::EntryWords told = view::entry_words(job_->circuit(), entry);
    for (const view::EntryWords::Line& line : told.observed) words(line.sentence);
    if (!told.told.empty()) words(told.told);
    for (const std::string& text : told.cautions) caution(frame, text);
}

void PractiseMode::came_of(const Frame& frame, const std::string& drawer) {
    if (came_in_ != drawer) return;
    if (!trouble_.empty()) return caution(frame, trouble_);
    if (job_->entries().empty()) return;
    ImGui::Separator();
    const Entry& entry = job_->entries().back();
    soft_words(frame, std::to_string(entry.number) + ": " + practice::action_text(entry.action));
    entry_block(frame, entry);
}

void PractiseMode::clock(const Frame& frame) {
    const double gone_min = job_->session().clock_min();
    const double allowed_min = job_->scenario().budget_min;
    ImGui::ProgressBar(static_cast<float>(std::clamp(gone_min / allowed_min, 0.0, 1.0)), {-1, frame.px(10)},
                       "");
    name_last(frame, "clock");
    const std::string text =
        view::fixed(gone_min, 1) + " of " + number_text(allowed_min) + " minutes are gone";
    if (gone_min > allowed_min)
        caution(frame, text + ": more than the customer pays for");
    else
        words(text);
}

void PractiseMode::job_drawer(const Frame& frame) {
    const practice::Scenario& scenario = job_->scenario();
    const practice::JobCard& card = scenario.job_card;
    words("\"" + card.complaint + "\"");
    for (const std::string& line : card.history) words(line);
    soft_words(frame, card.vehicle + ", " + view::mileage_text(card) + ". Level " +
                          std::to_string(scenario.level) + " of " + std::to_string(practice::kLevels) + ".");
    clock(frame);
    const std::vector<std::string> cautions = view::cautions_of(scenario, job_->circuit());
    const bool is_open =
        ImGui::TreeNode((std::to_string(cautions.size()) + " cautions, to be read first###cautions").c_str());
    name_last(frame, "cautions");
    if (is_open) {
        for (const std::string& text : cautions) caution(frame, text);
        ImGui::TreePop();
    }
}

void PractiseMode::suspects_drawer(const Frame& frame) {
    soft_words(frame, "What you think is wrong. It costs nothing and is marked on the paper.");
    const bool is_entered = type_in(frame, "suspect", "what you suspect, and why", suspect_words_);
    if ((wide_button(frame, "suspect:write", "Write it down") || is_entered) && !suspect_words_.empty()) {
        act("suspects", "suspect " + suspect_words_);
        if (trouble_.empty()) suspect_words_.clear();
    }
    if (came_in_ == "suspects" && !trouble_.empty()) caution(frame, trouble_);
    const std::vector<Entry>& entries = job_->entries();
    const std::vector<int> standing = practice::standing_suspicions(entries);
    std::optional<int> struck_out;
    for (std::size_t i = entries.size(); i > 0; --i) {
        const Entry& entry = entries[i - 1];
        if (entry.action.verb != Verb::suspect) continue;
        const std::string number = std::to_string(entry.number);
        const std::string text =
            number + "  " +
            practice::action_text(entry.action).substr(practice::spec_of(Verb::suspect).word.size() + 1);
        if (std::ranges::find(standing, entry.number) == standing.end()) {
            soft_words(frame, text + "  (struck out)");
            continue;
        }
        words(text);
        if (button(frame, "suspect:strike:" + number, "Strike it out")) struck_out = entry.number;
    }
    // At the end: it adds an entry to what is gone through above.
    if (struck_out) act("suspects", Action{Verb::strike, {std::to_string(*struck_out)}});
}

void PractiseMode::hints_drawer(const Frame& frame) {
    const std::size_t all = job_->scenario().hints.size();
    const std::size_t taken = at(job_->session().hints_taken());
    words(all == 0 ? "This job has no hints."
                   : std::to_string(taken) + " of " + std::to_string(all) + (all == 1 ? " hint" : " hints") +
                         " taken; the debrief counts them.");
    for (std::size_t i = 0; i < taken; ++i) words(std::to_string(i + 1) + ". " + job_->scenario().hints[i]);
    if (taken < all && button(frame, "hint", "Take the next hint")) act("hints", Action{Verb::hint, {}});
    if (came_in_ == "hints" && !trouble_.empty()) caution(frame, trouble_);
}

void PractiseMode::log_drawer(const Frame& frame) {
    if (job_->entries().empty()) soft_words(frame, "Nothing has been done yet.");
    const std::vector<Entry>& entries = job_->entries();
    const std::size_t count = entries.size();
    const std::size_t first = shows_whole_log_ || count < kLogShown ? 0 : count - kLogShown;
    for (std::size_t i = count; i > first; --i) {
        const Entry& entry = entries[i - 1];
        soft_words(frame, std::to_string(entry.number) + ": " + practice::action_text(entry.action));
        entry_block(frame, entry);
        soft_words(frame, view::entry_words(job_->circuit(), entry).clock);
        ImGui::Separator();
    }
    if (count > kLogShown)
        tick(frame, "log:all", "all " + std::to_string(count) + " entries", shows_whole_log_);
    soft_words(frame, "Kept in " + job_->log_path());
}

void PractiseMode::line_drawer(const Frame& frame) {
    if (const auto typed = line_.draw(frame)) act("line", *typed);
    const auto action = practice::read_action(line_.text());
    if (action) soft_words(frame, "takes " + view::clock_text(minutes_for(job_->session(), *action)));
    came_of(frame, "line");
}

void PractiseMode::done_drawer(const Frame& frame) {
    words("When it is repaired and put together, or when nothing is wrong with it.");
    if (!asks_whether_done_) {
        if (wide_button(frame, "done", "Hand the vehicle back")) asks_whether_done_ = true;
    } else {
        words("Sure? Nothing more can be done to it then.");
        if (button(frame, "done:yes", "Yes, hand it back")) {
            asks_whether_done_ = false;
            act("done", Action{Verb::done, {}});
        }
        ImGui::SameLine();
        if (button(frame, "done:no", "Not yet")) asks_whether_done_ = false;
    }
    if (came_in_ == "done" && !trouble_.empty()) caution(frame, trouble_);
}

void PractiseMode::working_drawers(const Frame& frame) {
    drawer(frame, "operate", "Operate", true, [&] { operate_drawer(frame); });
    drawer(frame, "instrument", "Instrument", true, [&] { instrument_drawer(frame); });
    drawer(frame, "in-hand", chosen_ ? "In hand: " + chosen_->name : "In hand", true,
           [&] { in_hand_drawer(frame); });
    drawer(frame, "suspects", "My suspects", false, [&] { suspects_drawer(frame); });
    drawer(frame, "hints", "Hints", false, [&] { hints_drawer(frame); });
    drawer(frame, "log", "Log", true, [&] { log_drawer(frame); });
    if (line_.wants_keyboard()) ImGui::SetNextItemOpen(true);
    drawer(frame, "line", "Type an action", true, [&] { line_drawer(frame); });
    drawer(frame, "done", "Hand it back", true, [&] { done_drawer(frame); });
}

/// Begins the job again, with a log of its own.
void PractiseMode::anew(const Frame& frame) {
    if (has_changed_)
        caution(frame, path_ + " has changed on the disk. This session keeps to what was read.");
    if ((has_changed_ || job_->session().is_over()) &&
        button(frame, "anew", has_changed_ ? "Begin anew with what is there now" : "Do this job once more"))
        begin_anew();
    if (!anew_trouble_.empty()) caution(frame, anew_trouble_);
}

void PractiseMode::trolley(const Frame& frame, Paper& paper) {
    if (!job_) return;
    anew(frame);
    if (job_->session().is_over()) {
        debrief_.drawers(frame, *job_);
        if (const auto gone_to = debrief_.take_gone_to(*job_))
            if (const auto found = find_drawn(*drawn_, *gone_to, paper.page())) paper.show(*found);
        drawer(frame, "job-done", job_->scenario().title, false, [&] { job_drawer(frame); });
        drawer(frame, "log-done", "Log", false, [&] { log_drawer(frame); });
        return;
    }
    drawer(frame, "job", job_->scenario().title, true, [&] { job_drawer(frame); });
    const bool was_busy = is_busy();
    if (was_busy) {
        words("At work: " + acting_.what());
        if (button(frame, "leave", "Leave it undone")) acting_.leave();
    }
    ImGui::BeginDisabled(was_busy);
    working_drawers(frame);
    ImGui::EndDisabled();
}

}  // namespace halfsplit::window
