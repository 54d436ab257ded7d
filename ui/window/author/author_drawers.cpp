#include <imgui.h>

#include <algorithm>

#include "engine/base/index.h"
#include "engine/practice/draft/complaint.h"
#include "ui/window/author/author_mode.h"
#include "ui/window/frame/text_box.h"
#include "ui/window/frame/widgets.h"
#include "ui/window/hands/faults_of.h"

namespace halfsplit::window {

namespace {

void progress_bar(const Frame& frame, const std::string& what, double share) {
    soft_words(frame, what + " ...");
    ImGui::ProgressBar(static_cast<float>(share), {-1, 0});
}

}  // namespace

void AuthorMode::wrong_drawer(const Frame& frame) {
    // Copies: ticking one changes what is there.
    std::vector<std::string> wrong;
    for (const network::Fault& fault : desk_.job.faults) wrong.push_back(fault.text);
    if (wrong.empty()) {
        soft_words(frame, "Nothing yet. Click a part, a point or a wire, and choose.");
        if (tick(frame, "nothing", "Nothing is, and that is meant so", desk_.nothing_is_wrong)) {
            proved_.reset();
            find_symptoms();
        }
    }
    for (const std::string& fault : wrong) {
        bool is_wrong = true;
        if (tick(frame, "wrong:" + fault, fault, is_wrong)) set_fault(fault, false);
    }
    if (!chosen_) return;
    std::string name = chosen_->name;
    if (const auto pin = circuit().find_pin(name); pin && chosen_->kind == Pick::Kind::point)
        name = circuit().parts[at(pin->part)].id;
    const model::Part* part = circuit().find_part(name);
    ImGui::Separator();
    words("What may be wrong with " + name + (part == nullptr ? "" : " (" + part->title + ")") + ":");
    for (const std::string& fault : faults_about(all_faults_, name)) {
        bool is_wrong = std::ranges::find(wrong, fault) != wrong.end();
        if (tick(frame, "choose:" + fault, fault, is_wrong)) set_fault(fault, is_wrong);
    }
}

void AuthorMode::symptom_choice(const Frame& frame) {
    if (predicting_.is_running()) return progress_bar(frame, predicting_.what(), predicting_.share());
    if (!known_) {
        for (const Diagnostic& each : trouble_) caution(frame, each.message);
        return;
    }
    if (desk_.job.faults.empty()) return;
    const bool is_noticed = !desk_.job.symptoms.empty();
    int as = noticed_as();
    if (!noticed_.empty() || is_noticed) words("What the customer notices:");
    if (is_noticed && as < 0)
        words("As the file says: " + practice::title_for(circuit(), desk_.job.symptoms) + ".");
    std::vector<std::string> seen;
    for (const Noticed& each : noticed_) seen.push_back(each.words);
    if (!seen.empty() && pick_from(frame, "noticed", seen, as)) take_symptoms(as);
    // The field shows as much of it as there is room for.
    if (as >= 0) soft_words(frame, seen[at(as)] + ".");
    if (!is_noticed && seen.empty())
        caution(frame,
                "Nobody would notice " + desk_.job.faults.front().text + " in any of the circuit's states.");
}

void AuthorMode::complaint_drawer(const Frame& frame) {
    if (desk_.job.faults.empty() && !desk_.nothing_is_wrong) {
        soft_words(frame, "First choose what is wrong.");
        return;
    }
    symptom_choice(frame);
    words("In the customer's words:");
    write_in(frame, "complaint", desk_.job.job_card.complaint);
    words("Title:");
    write_in(frame, "title", desk_.job.title);
}

void AuthorMode::proof(const Frame& frame) {
    for (const Diagnostic& each : proved_->problems) caution(frame, each.message);
    words((proved_->problems.empty() ? "Fair: " : "Not fair yet: ") + proved_->summary);
    name_last(frame, "proved");
    if (ImGui::TreeNode("The best strategy")) {
        for (const std::string& step : proved_->way) words(step);
        ImGui::TreePop();
    }
}

void AuthorMode::proof_drawer(const Frame& frame) {
    const bool is_complete = desk_.job.faults.empty() ? desk_.nothing_is_wrong : !desk_.job.symptoms.empty();
    if (!is_complete) {
        soft_words(frame, "First choose what is wrong and what is noticed of it.");
        return;
    }
    if (proving_.is_running())
        progress_bar(frame, "Proving that it can be found, and how hard it is", 0);
    else if (known_ && button(frame, "prove", "Prove it"))
        proving_.start("proving", proof_work(known_, scenario()));
    if (proved_) proof(frame);
    ImGui::Separator();
    type_in(frame, "file", "name.scenario.xml", desk_.file);
    if (button(frame, "keep", "Keep it as a file")) keep();
    for (const Diagnostic& each : trouble_) caution(frame, each.message);
    if (!told_.empty()) words(told_);
}

void AuthorMode::trolley(const Frame& frame, Paper&) {
    if (!drawn_) return;
    drawer(frame, "wrong", "What is wrong", true, [&] { wrong_drawer(frame); });
    drawer(frame, "complaint", "What the customer says", true, [&] { complaint_drawer(frame); });
    drawer(frame, "card", "Vehicle, level, minutes", false, [&] { card_drawer(frame); });
    drawer(frame, "help", "Hints, instruments, lesson", false, [&] { help_drawer(frame); });
    drawer(frame, "proof", "Proof, and keeping it", true, [&] { proof_drawer(frame); });
}

}  // namespace halfsplit::window
