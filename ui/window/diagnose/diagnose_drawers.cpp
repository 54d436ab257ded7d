#include <imgui.h>

#include <algorithm>
#include <utility>

#include "engine/base/index.h"
#include "engine/model/own_states.h"
#include "ui/files/readings_file.h"
#include "ui/view/readings_table.h"
#include "ui/view/sheet_text.h"
#include "ui/window/diagnose/diagnose_mode.h"
#include "ui/window/diagnose/room.h"
#include "ui/window/frame/widgets.h"

namespace halfsplit::window {

namespace {

/// The table of what is expected takes no more than this of the trolley's height.
constexpr float kMostOfTrolley = 0.46F;

std::string state_title(const model::Circuit& circuit, int state) {
    const model::OperatingState& each = circuit.states[at(state)];
    return each.title.empty() ? each.id : each.title;
}

/// One beside the other, each whole on its line as far as it fits there.
void flow(const Frame& frame, const std::vector<std::string>& texts) {
    float left = 0;
    for (std::size_t i = 0; i < texts.size(); ++i) {
        const std::string text = texts[i] + (i + 1 < texts.size() ? ";" : "");
        const float width = ImGui::CalcTextSize(text.c_str()).x;
        if (i > 0 && width < left) ImGui::SameLine();
        soft_words(frame, text);
        left = ImGui::GetContentRegionAvail().x - ImGui::GetItemRectMax().x + ImGui::GetCursorScreenPos().x -
               ImGui::GetStyle().ItemSpacing.x;
    }
}

std::string whole_percent(double share) {
    return std::to_string(static_cast<int>(100 * share)) + " %";
}

}  // namespace

void DiagnoseMode::predicting(const Frame& frame) {
    if (!reasoning_.trouble().empty()) caution(frame, reasoning_.trouble());
    if (reasoning_.is_predicting()) {
        words("Predicting what each fault would show: " + whole_percent(reasoning_.predicted_share()));
        ImGui::ProgressBar(static_cast<float>(reasoning_.predicted_share()), {-1, frame.px(6)}, "");
        name_last(frame, "predicting");
        if (button(frame, "predict:stop", "Stop")) reasoning_.stop_predicting();
        ImGui::SameLine();
        soft_words(frame, "Readings can be written down meanwhile.");
    } else if (reasoning_.consultation() == nullptr && has_begun_) {
        soft_words(frame, "No suspects without predictions.");
        if (button(frame, "predict:start", "Predict what each fault would show")) reasoning_.predict();
    }
}

void DiagnoseMode::vehicle_drawer(const Frame& frame) {
    if (states_.empty()) {
        caution(frame, "This circuit has no operating states: there is nothing to be expected.");
        return;
    }
    if (!notebook_.trouble().empty()) caution(frame, notebook_.trouble());
    if (!notebook_.told().empty()) soft_words(frame, notebook_.told());
    std::vector<std::string> titles;
    titles.reserve(states_.size());
    for (const int state : states_) titles.push_back(state_title(circuit(), state));
    int chosen = static_cast<int>(std::ranges::find(states_, state_) - states_.begin());
    if (pick_from(frame, "state", titles, chosen)) turn_to(states_[at(chosen)]);
    const auto steps = view::steps_text(circuit(), circuit().states[at(state_)]);
    flow(frame, steps.empty() ? std::vector<std::string>{"Everything at rest."} : steps);
    if (expected_ != nullptr)
        for (const std::string& doubt : expected_->doubts) caution(frame, doubt);
    if (tick(frame, "complaint", "Complaint: something is certainly wrong", complaint_)) know_more();
    predicting(frame);
}

void DiagnoseMode::cautions_drawer(const Frame& frame) {
    if (expected_ == nullptr) return;
    for (const std::string& text : expected_->cautions) caution(frame, text);
}

void DiagnoseMode::expected_drawer(const Frame& frame) {
    if (expected_ == nullptr) {
        soft_words(frame, "Working out what should be found …");
        return;
    }
    if (!expected_->trouble.empty()) caution(frame, expected_->trouble);
    if (choice(frame, "rows:all", "All", !only_here_)) only_here_ = false;
    ImGui::SameLine();
    if (choice(frame, "rows:here", "Here", only_here_)) only_here_ = true;
    ImGui::SameLine();
    const std::string here = chosen_ ? "around " + chosen_->name : "click a part: Here is what is around it";
    fitted_text(only_here_ || !chosen_ ? here : "against body where nothing else is said",
                ImGui::GetContentRegionAvail().x, frame.theme.soft_text);
    if (only_here_ && table_.wanted()) {
        const auto is_wanted = [&](const view::ExpectedRow& row) {
            return is_same_finding(row.finding, table_.wanted()->finding) && !is_here(row);
        };
        if (chosen_ && std::ranges::any_of(expected_->rows, is_wanted)) only_here_ = false;
    }
    do_in_table(table_.draw(frame, circuit(), groups(), notebook_,
                            std::max(frame.px(180), kMostOfTrolley * ImGui::GetWindowHeight())));
}

void DiagnoseMode::begin_anew(const Frame& frame) {
    if (!asks_anew_) {
        if (button(frame, "anew", "Begin anew")) asks_anew_ = true;
        return;
    }
    words("Strike out all readings, and what was cleared?");
    if (button(frame, "anew:yes", "Strike them out")) {
        notebook_.begin_anew();
        cleared_.clear();
        complaint_ = false;
        table_.clear();
        asked_.reset();
        asks_anew_ = false;
        know_more();
    }
    ImGui::SameLine();
    if (button(frame, "anew:no", "Keep them")) asks_anew_ = false;
}

void DiagnoseMode::readings_drawer(const Frame& frame) {
    std::optional<Spotted> back;
    std::optional<std::pair<Spotted, bool>> ticked;
    const auto& readings = notebook_.readings();
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const diagnosis::FilledRow& reading = readings[i];
        const Spotted what{reading.state, reading.finding};
        const ExpectedState* sheet = reading.state == state_ ? expected_ : sheets_.of(reading.state);
        const auto row = row_of(sheet, what);
        const std::string name = circuit().states[at(reading.state)].id + ":" + row_name(row);
        const std::string value = view::entry_text(circuit(), row, reading.value) +
                                  (row.cells.unit.empty() ? "" : " " + row.cells.unit);
        const view::Fit fit = view::fit_of(row, reading.value);
        ImGui::PushID(static_cast<int>(i));
        const float width = ImGui::GetContentRegionAvail().x - frame.px(106);
        fitted_text(row_name(row) + "  " + value + "  " + std::string(view::fit_sign(fit)) + " " +
                        std::string(view::fit_words(fit)),
                    width, frame.theme.text);
        ImGui::SameLine(width);
        if (button(frame, "back:" + name, "Take back")) back = what;
        fitted_text(state_title(circuit(), reading.state) +
                        (row.cells.expected.empty() ? "" : "; expected " + row.cells.expected),
                    width, frame.theme.soft_text);
        ImGui::SameLine(width);
        bool is_complaint = reading.is_complaint;
        if (tick(frame, "complained:" + name, "Complaint", is_complaint)) ticked.emplace(what, is_complaint);
        ImGui::PopID();
    }
    if (readings.empty()) soft_words(frame, "Nothing has been read yet.");
    if (back) {
        notebook_.take_back(*back);
        know_more();
    }
    if (ticked) {
        notebook_.mark(ticked->first, ticked->second);
        know_more();
    }
    soft_words(frame, "Kept in " + notebook_.path());
    if (!readings.empty() || !cleared_.empty()) begin_anew(frame);
}

void DiagnoseMode::print_drawer(const Frame& frame) {
    const auto print = [&](Printing::Form form) {
        const auto own = model::own_states(circuit(), path_);
        printing_.print(form, drawn_->circuit, files::circuit_name(path_), own, notebook_.readings());
    };
    if (printing_.is_working()) {
        words("Writing the sheet: " + whole_percent(printing_.share()));
        if (button(frame, "print:stop", "Stop")) printing_.stop();
    } else {
        if (button(frame, "print:page", "A page to print")) print(Printing::Form::page);
        ImGui::SameLine();
        if (button(frame, "print:table", "A table to fill in")) print(Printing::Form::table);
    }
    if (!printing_.told().empty()) {
        if (printing_.went_wrong())
            caution(frame, printing_.told());
        else
            words(printing_.told());
        name_last(frame, "print:told");
    }
    words("Read a filled table in:");
    if (type_in(frame, "read-in", "path of a .csv, then Enter", csv_path_)) {
        const Diagnostics problems = notebook_.read_in(csv_path_);
        csv_trouble_ = problems.empty() ? "" : to_text(problems.front());
        if (problems.size() > 1) csv_trouble_ += " (and " + std::to_string(problems.size() - 1) + " more)";
        if (problems.empty()) know_more();
    }
    if (!csv_trouble_.empty()) caution(frame, csv_trouble_);
}

/// The first of them is told even while the drawer is shut.
std::string DiagnoseMode::suspects_title() const {
    const auto& conclusion = reasoning_.conclusion();
    if (!conclusion || conclusion->readings == 0 || conclusion->suspects.empty()) return "Suspects";
    const SuspectLine& first = conclusion->suspects.front();
    return "Suspects: " + first.share + "  " + first.name;
}

void DiagnoseMode::trolley(const Frame& frame, Paper& paper) {
    if (!drawn_) return;
    if (to_show_)
        if (const auto found = find_drawn(*drawn_, *to_show_, paper.page())) paper.show(*found);
    to_show_.reset();
    drawer(frame, "vehicle", circuit().title, true, [&] { vehicle_drawer(frame); });
    if (state_ < 0) return;
    const std::size_t cautions = expected_ == nullptr ? 0 : expected_->cautions.size();
    drawer(frame, "cautions", "! Before you measure: " + std::to_string(cautions) + " cautions", false,
           [&] { cautions_drawer(frame); });
    const bool is_roomy = ImGui::GetWindowHeight() > frame.px(kRoomyPx);
    drawer(frame, "suspects", suspects_title(), is_roomy, [&] { suspects_drawer(frame); });
    drawer(frame, "next", "Next", true, [&] { next_drawer(frame); });
    if (std::exchange(opens_table_, false)) ImGui::SetNextItemOpen(true);
    drawer(frame, "expected", "Expected here", true, [&] { expected_drawer(frame); });
    drawer(frame, "readings", "Readings so far: " + std::to_string(notebook_.readings().size()), false,
           [&] { readings_drawer(frame); });
    drawer(frame, "print", "Print, and read in", false, [&] { print_drawer(frame); });
}

}  // namespace halfsplit::window
