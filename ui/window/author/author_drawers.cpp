#include <imgui.h>
#include <imgui_stdlib.h>

#include <algorithm>

#include "engine/base/index.h"
#include "ui/window/author/author_mode.h"
#include "ui/window/frame/widgets.h"
#include "ui/window/hands/faults_of.h"

namespace halfsplit::window {

namespace {

constexpr double kMostBudgetMin = 240;
constexpr double kMostMileageKm = 400000;

void progress_bar(const Frame& frame, const std::string& what, double share) {
    soft_words(frame, what + " ...");
    ImGui::ProgressBar(static_cast<float>(share), {-1, 0});
}

}  // namespace

void AuthorMode::wrong_drawer(const Frame& frame) {
    // Copies: ticking one changes what is there.
    const std::vector<std::string> wrong = faults_;
    if (wrong.empty()) soft_words(frame, "Nothing yet. Click a part, a point or a wire, and choose.");
    for (const std::string& fault : wrong) {
        bool is_wrong = true;
        if (tick(frame, "wrong:" + fault, fault, is_wrong)) set_fault(fault, false);
    }
    if (!chosen_) return;
    const model::Circuit& circuit = on_disk_->circuit;
    std::string name = chosen_->name;
    if (const auto pin = circuit.find_pin(name); pin && chosen_->kind == Pick::Kind::point)
        name = circuit.parts[at(pin->part)].id;
    const model::Part* part = circuit.find_part(name);
    ImGui::Separator();
    words("What may be wrong with " + name + (part == nullptr ? "" : " (" + part->title + ")") + ":");
    for (const std::string& fault : faults_about(all_faults_, name)) {
        bool is_wrong = std::ranges::find(wrong, fault) != wrong.end();
        if (tick(frame, "choose:" + fault, fault, is_wrong)) set_fault(fault, is_wrong);
    }
}

void AuthorMode::complaint_drawer(const Frame& frame) {
    if (predicting_.is_running()) {
        progress_bar(frame, predicting_.what(), predicting_.share());
        return;
    }
    if (faults_.empty()) {
        soft_words(frame, "First choose what is wrong.");
        return;
    }
    if (!known_) {
        for (const Diagnostic& each : trouble_) caution(frame, each.message);
        return;
    }
    if (noticed_.empty()) {
        caution(frame, "Nobody would notice " + faults_.front() + " in any of the circuit's states.");
        return;
    }
    std::vector<std::string> seen;
    for (const Noticed& each : noticed_) seen.push_back(each.words);
    words("What the customer notices:");
    int as = noticed_as_;
    if (pick_from(frame, "noticed", seen, as)) take_symptoms(noticed_[at(as)]);
    words("In the customer's words:");
    ImGui::InputTextMultiline("###complaint", &complaint_, {-1, frame.px(86)});
    name_last(frame, "complaint");
    words("Title, vehicle, a hint:");
    type_in(frame, "title", "title", title_);
    type_in(frame, "vehicle", "vehicle (invented)", vehicle_);
    type_in(frame, "hint", "a hint, for who asks for one", hint_);
    words("Mileage:");
    slide(frame, "mileage", mileage_km_, 0, kMostMileageKm, "km");
    words("Level, 1 is easy:");
    for (int level = 1; level <= practice::kLevels; ++level) {
        if (level > 1) ImGui::SameLine();
        if (choice(frame, "level:" + std::to_string(level), std::to_string(level), level_ == level)) {
            level_ = level;
            proved_.reset();
        }
    }
    words("What the customer pays for:");
    if (slide(frame, "budget", budget_min_, 10, kMostBudgetMin, "min")) proved_.reset();
}

void AuthorMode::proof_drawer(const Frame& frame) {
    if (proving_.is_running()) {
        progress_bar(frame, "Proving that it can be found, and how hard it is", 0);
        return;
    }
    const bool is_ready = known_ && noticed_as_ >= 0 && !faults_.empty();
    if (!is_ready) {
        soft_words(frame, "First choose what is wrong and what is noticed of it.");
        return;
    }
    if (button(frame, "prove", "Prove it")) proving_.start("proving", proof_work(known_, scenario()));
    if (proved_) {
        for (const Diagnostic& each : proved_->problems) caution(frame, each.message);
        words((proved_->problems.empty() ? "Fair: " : "Not fair yet: ") + proved_->summary);
        name_last(frame, "proved");
        if (ImGui::TreeNode("The best strategy")) {
            for (const std::string& step : proved_->way) words(step);
            ImGui::TreePop();
        }
    }
    ImGui::Separator();
    type_in(frame, "file", "name.scenario.xml", file_);
    if (button(frame, "keep", "Keep it as a file")) keep();
    for (const Diagnostic& each : trouble_) caution(frame, each.message);
    if (!told_.empty()) words(told_);
}

void AuthorMode::trolley(const Frame& frame, Paper&) {
    if (!drawn_) return;
    drawer(frame, "wrong", "What is wrong", true, [&] { wrong_drawer(frame); });
    drawer(frame, "complaint", "What the customer says", true, [&] { complaint_drawer(frame); });
    drawer(frame, "proof", "Proof, and keeping it", true, [&] { proof_drawer(frame); });
}

}  // namespace halfsplit::window
