#include "ui/window/practise/practise_mode.h"

#include <imgui.h>

#include <algorithm>
#include <iterator>

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "ui/view/session_names.h"
#include "ui/view/table.h"
#include "ui/window/frame/keys.h"
#include "ui/window/practise/possible.h"

namespace halfsplit::window {

using practice::Action;
using practice::Verb;

namespace {

/// What is done within this is there in the same frame.
constexpr std::chrono::milliseconds kPatience{40};

}  // namespace

std::string_view PractiseMode::about() const {
    return "A vehicle comes in with a complaint. Find what is wrong with it, put it right, and be told how "
           "it "
           "went.";
}

bool PractiseMode::takes(const std::string& path) const {
    return path.ends_with(".scenario.xml");
}

Diagnostics PractiseMode::open(const std::string& path) {
    if (job_ != nullptr && path == path_) {
        // What is on the desk stays there until somebody says otherwise; its file may have changed since.
        const auto now = files::read_scenario_on_disk(path);
        has_changed_ = !now || now->content != job_->on_disk()->content;
        return {};
    }
    auto job = JobInHand::open(path);
    if (!job) return job.error();
    path_ = path;
    begin_with(std::move(*job));
    return {};
}

void PractiseMode::begin_anew() {
    auto job = JobInHand::open(path_);
    anew_trouble_ = job ? "" : to_text(job.error().front());
    if (job) begin_with(std::move(*job));
}

void PractiseMode::begin_with(std::unique_ptr<JobInHand> job) {
    acting_.leave();
    debrief_.clear();
    has_changed_ = false;
    anew_trouble_.clear();
    job_ = std::move(job);
    drawn_ = window::drawn(job_->shared_circuit());
    sources_ = diagnosis::sign_sources(job_->circuit());
    seen_ = seen_in(job_->circuit(), job_->entries());
    leads_ = LeadsInHand();
    const std::vector<std::string>& allowed = job_->scenario().instruments;
    if (!allowed.empty() && std::ranges::find(allowed, leads_.instrument()) == allowed.end())
        leads_.take(allowed.front());
    chosen_.reset();
    came_in_.clear();
    trouble_.clear();
    turned_.clear();
    channels_.clear();
    screen_ = {};
    if (job_->strip()) screen_.view().show(job_->strip()->time_s.back());
    jumper_from_.clear();
    suspect_words_.clear();
    asks_whether_done_ = false;
    state_chosen_ = job_->scenario().arrives_in;
    line_.offer(view::verb_words(), view::names_in(job_->scenario(), job_->circuit()));
}

void PractiseMode::act(const std::string& drawer, const Action& action) {
    if (!job_ || is_busy() || job_->session().is_over()) return;
    acting_in_ = drawer;
    acting_.start(practice::action_text(action),
                  [trial = job_->trial(action)](Progress&) mutable { return trial(); });
    take_trial(kPatience);
}

void PractiseMode::act(const std::string& drawer, const std::string& typed) {
    const auto action = practice::read_action(typed);
    if (action) return act(drawer, *action);
    came_in_ = drawer;
    trouble_ = action.error();
}

void PractiseMode::take_trial(std::chrono::milliseconds patience) {
    auto trial = acting_.take(patience);
    if (!trial) return;
    came_in_ = acting_in_;
    trouble_ = *trial ? job_->keep(std::move(**trial)) : trial->error();
    if (!trouble_.empty()) return;
    seen_ = seen_in(job_->circuit(), job_->entries());
    turned_.clear();
    if (job_->entries().back().action.verb == Verb::record && job_->strip()) {
        screen_.view().show(job_->strip()->time_s.back());
        shows_screen_ = true;
    }
    if (job_->session().is_over()) debrief_.begin(*job_);
}

void PractiseMode::measure() {
    if (!leads_.is_placed()) return;
    const instruments::Leads& leads = leads_.leads();
    Action action{Verb::measure, {leads_.instrument(), leads.at}};
    if (leads_.has_second_lead() && leads.against != "body") action.arguments.push_back(leads.against);
    act("instrument", action);
}

void PractiseMode::advance(double) {
    if (!job_) return;
    take_trial({});
    debrief_.advance();
}

bool PractiseMode::is_lively() const {
    return is_busy() || debrief_.is_working();
}

Marks PractiseMode::marks() const {
    if (!job_) return {};
    if (job_->session().is_over()) return debrief_.marks(*job_, sources_);
    Marks marks = marks_of(job_->circuit(), sources_, seen_);
    std::ranges::copy(leads_.marks(), std::back_inserter(marks.leads));
    if (!jumper_from_.empty()) marks.leads.push_back({LeadMark::Pole::other, jumper_from_, "J"});
    marks.chosen = chosen_;
    return marks;
}

void PractiseMode::done_on_paper(const PaperDeed& deed) {
    if (!job_ || job_->session().is_over()) return;
    for (const auto* pick : {&deed.first, &deed.second})
        if (*pick) {
            chosen_ = **pick;
            leads_.put(**pick, pick == &deed.first);
        }
    if (deed.beside) chosen_.reset();
}

void PractiseMode::keys() {
    if (!job_) return;
    const auto pressed = [](Key key) { return ImGui::IsKeyPressed(static_cast<int>(key), false); };
    if (job_->session().is_over()) {
        if (pressed(Key::comma)) debrief_.go(-1);
        if (pressed(Key::period)) debrief_.go(1);
        return;
    }
    if (pressed(Key::m)) measure();
    if (pressed(Key::l)) leads_.lift();
    if (pressed(Key::b) && chosen_) leads_.put(*chosen_, false);
    if (pressed(Key::o)) act("operate", Action{Verb::look, {}});
    if (pressed(Key::w)) act("operate", Action{Verb::wait, {"1"}});
    if (pressed(Key::t)) line_.take_keyboard();
    if (has_screen()) screen_.keys(*job_->strip());
}

std::vector<std::pair<std::string, std::string>> PractiseMode::key_list() const {
    std::vector<std::pair<std::string, std::string>> keys{{"M", "measure with what is in hand"},
                                                          {"L", "lift the leads"},
                                                          {"B", "black lead on the point in hand"},
                                                          {"O", "look all round"},
                                                          {"W", "wait a second"},
                                                          {"T", "type an action"},
                                                          {", and .", "a step back and on, in the debrief"}};
    std::ranges::copy(RecorderScreen::key_list(), std::back_inserter(keys));
    return keys;
}

std::string PractiseMode::hint() const {
    if (!job_) return "";
    const std::string clock = view::fixed(job_->session().clock_min(), 1) + " of " +
                              number_text(job_->scenario().budget_min) + " min.  ";
    if (job_->session().is_over()) return clock + "The keys , and . go through the steps.";
    return clock + leads_.hint();
}

}  // namespace halfsplit::window
