#include "ui/window/practise/debrief_desk.h"

#include <imgui.h>

#include <algorithm>
#include <filesystem>
#include <span>
#include <string_view>

#include "engine/base/index.h"
#include "engine/diagnosis/suspects/reasons.h"
#include "ui/view/debrief_html.h"
#include "ui/view/fairness_text.h"
#include "ui/view/session_text.h"
#include "ui/window/frame/widgets.h"
#include "ui/window/hands/faults_of.h"

namespace halfsplit::window {

using practice::Entry;
using practice::Verb;

namespace {

constexpr std::string_view kLogEnd = ".session.jsonl";

std::string page_path(const std::string& log_path) {
    const std::string stem =
        log_path.ends_with(kLogEnd) ? log_path.substr(0, log_path.size() - kLogEnd.size()) : log_path;
    return stem + ".debrief.html";
}

/// The first thing of the diagram that the action names.
std::optional<Pick> picked_by(const model::Circuit& circuit, const practice::Action& action) {
    for (const std::string& name : action.arguments) {
        if (circuit.find_wire(name) != nullptr) return Pick{Pick::Kind::wire, name};
        if (circuit.find_part(name) != nullptr) return Pick{Pick::Kind::part, name};
        if (circuit.find_pin(name)) return Pick{Pick::Kind::point, name};
        // A coupling's contact has a point on either side.
        if (circuit.find_pin(name + "a")) return Pick{Pick::Kind::point, name + "a"};
    }
    return std::nullopt;
}

}  // namespace

void DebriefDesk::begin(const JobInHand& job) {
    clear();
    worker_.start("Looking back at what was done", debrief_work(job));
}

void DebriefDesk::clear() {
    worker_.leave();
    told_.reset();
    trouble_.clear();
    written_.clear();
    step_ = 0;
    shown_step_ = -1;
}

void DebriefDesk::advance() {
    auto result = worker_.take();
    if (!result) return;
    if (!*result) {
        trouble_ = result->error().empty() ? "it cannot be worked out" : to_text(result->error().front());
        return;
    }
    told_.emplace(std::move(**result));
    // The reading that told most is a good one to begin with.
    step_ = std::max(told_->debrief.physics.entry, 0);
}

void DebriefDesk::go(int steps) {
    if (told_) step_ = std::clamp(step_ + steps, 0, std::max(static_cast<int>(told_->rows.size()) - 1, 0));
}

std::optional<Pick> DebriefDesk::take_gone_to(const JobInHand& job) {
    if (!told_ || step_ == shown_step_ || at(step_) >= job.entries().size()) return std::nullopt;
    shown_step_ = step_;
    return picked_by(job.circuit(), job.entries()[at(step_)].action);
}

void DebriefDesk::write_page(const JobInHand& job) {
    const std::string path = page_path(job.log_path());
    const std::string page = view::debrief_html(job.session(), told_->expertise, told_->debrief, job.who());
    const bool is_written = files::write_atomically(path, page);
    trouble_ = is_written ? "" : path + " cannot be written";
    std::error_code error;
    written_ = is_written ? std::filesystem::absolute(path, error).string() : "";
}

void DebriefDesk::waiting(const Frame& frame, const JobInHand& job) {
    words("The vehicle has been handed back.");
    if (!trouble_.empty()) caution(frame, trouble_);
    if (!worker_.is_running()) {
        if (wide_button(frame, "debrief:begin", "Work the debrief out")) begin(job);
        return;
    }
    words(worker_.what());
    ImGui::ProgressBar(static_cast<float>(worker_.share()), {-1, 0}, "");
    words(std::to_string(static_cast<int>(worker_.share() * 100)) + " of 100");
    if (button(frame, "debrief:leave", "Not now")) worker_.leave();
}

void DebriefDesk::verdict_drawer(const Frame& frame, const JobInHand& job) {
    if (!told_) return waiting(frame, job);
    const practice::Verdict& verdict = told_->debrief.verdict;
    ImGui::PushFont(frame.fonts.title);
    words(view::verdict_sentence(job.session(), verdict));
    ImGui::PopFont();
    for (const std::string& line : view::verdict_figures(verdict)) words(line);
    ImGui::Separator();
    soft_words(frame, "What it was");
    for (const std::string& line : view::hidden_lines(job.scenario(), job.circuit())) words(line);
    if (!job.scenario().lesson.empty()) words(job.scenario().lesson);
    const practice::Physics& physics = told_->debrief.physics;
    if (!physics.cause.empty()) {
        ImGui::Separator();
        soft_words(frame, "Why it read as it did");
        words(physics.cause + " " + physics.reading);
    }
    ImGui::Separator();
    if (wide_button(frame, "debrief:write", "Write it as a page to print")) write_page(job);
    if (!trouble_.empty()) caution(frame, trouble_);
    if (!written_.empty()) words("It is in " + written_);
}

void DebriefDesk::steps_drawer(const Frame& frame) {
    const int count = static_cast<int>(told_->rows.size());
    words("The complaint leaves " + std::to_string(told_->debrief.hindsight.suspects_at_first) +
          " suspects. The paper shows what was known after a step, and what was left then.");
    int shown = step_ + 1;
    words("Step " + std::to_string(shown) + " of " + std::to_string(count));
    ImGui::SetNextItemWidth(-1);
    // The number stands above it: letters on the grip could not be read.
    ImGui::SliderInt("###debrief:step", &shown, 1, count, "", ImGuiSliderFlags_AlwaysClamp);
    name_last(frame, "debrief:step");
    step_ = std::clamp(shown - 1, 0, count - 1);
    if (!ImGui::BeginTable("steps", 3, ImGuiTableFlags_RowBg | ImGuiTableFlags_BordersInnerH)) return;
    const auto narrow = ImGuiTableColumnFlags_WidthFixed;
    ImGui::TableSetupColumn("clock", narrow,
                            ImGui::CalcTextSize("000.0 min").x + 2 * ImGui::GetStyle().FramePadding.x);
    ImGui::TableSetupColumn("what was done, and what came of it", ImGuiTableColumnFlags_WidthStretch);
    ImGui::TableSetupColumn("left", narrow, ImGui::CalcTextSize("left").x);
    ImGui::TableHeadersRow();
    for (int i = 0; i < count; ++i) {
        const view::DebriefRow& row = told_->rows[at(i)];
        ImGui::TableNextRow();
        ImGui::TableNextColumn();
        if (choice(frame, "debrief:row:" + std::to_string(i + 1), row.clock, i == step_)) step_ = i;
        ImGui::TableNextColumn();
        words(row.action);
        if (!row.answer.empty()) soft_words(frame, row.answer);
        if (!row.remark.empty()) words(row.remark);
        ImGui::TableNextColumn();
        words(row.left);
    }
    ImGui::EndTable();
}

void DebriefDesk::best_drawer() {
    for (const diagnosis::Diagnosis::Step& step : told_->debrief.best.diagnosis.steps)
        words(view::step_text(told_->expertise, told_->debrief.best, step));
}

void DebriefDesk::drawers(const Frame& frame, const JobInHand& job) {
    drawer(frame, "verdict", "How it went", true, [&] { verdict_drawer(frame, job); });
    if (!told_) return;
    drawer(frame, "steps", "Step by step", true, [&] { steps_drawer(frame); });
    drawer(frame, "best", "The best strategy", false, [&] { best_drawer(); });
}

void DebriefDesk::mark_suspects(const model::Circuit& circuit, Marks& marks) const {
    const practice::Hindsight& hindsight = told_->debrief.hindsight;
    const practice::StepInHindsight& step = hindsight.steps[at(step_)];
    if (step.was_in_order) return;
    std::map<std::string, std::vector<std::string>> by_place;
    const auto& faults = told_->expertise.consultation->dictionary().faults;
    for (const int hypothesis : step.left)
        for (const int each : hindsight.hypotheses->faults_of(hypothesis)) {
            const network::Fault& fault = faults[at(each)].fault;
            by_place[marked_by(circuit, fault)].push_back(fault.text);
        }
    for (const auto& [where, texts] : by_place)
        marks.doubts[where] =
            texts.front() + (texts.size() > 1 ? " and " + std::to_string(texts.size() - 1) + " more" : "");
}

Marks DebriefDesk::marks(const JobInHand& job, const std::vector<diagnosis::SignSource>& sources) const {
    const std::vector<Entry>& entries = job.entries();
    const std::size_t seen_steps = told_ ? std::min(at(step_) + 1, entries.size()) : entries.size();
    const model::Circuit& circuit = job.circuit();
    Marks marks = marks_of(circuit, sources, seen_in(circuit, std::span(entries).first(seen_steps)));
    if (!told_) return marks;
    marks.doubts.clear();
    if (at(step_) < told_->debrief.hindsight.steps.size()) mark_suspects(circuit, marks);
    const Entry& entry = entries[seen_steps - 1];
    marks.chosen = picked_by(circuit, entry.action);
    return marks;
}

}  // namespace halfsplit::window
