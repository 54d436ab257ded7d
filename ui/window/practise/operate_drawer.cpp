#include <imgui.h>

#include <array>
#include <cmath>

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "ui/window/frame/widgets.h"
#include "ui/window/hands/controls.h"
#include "ui/window/practise/possible.h"
#include "ui/window/practise/practise_mode.h"

namespace halfsplit::window {

using practice::Action;
using practice::Verb;

namespace {

/// Of a button that is held longer than a second.
constexpr const char* kHeldS = "5";

/// The positions hands have put things into: what may be seen of them from outside.
std::vector<int> hand_positions(const model::Circuit& circuit, const network::Situation& situation) {
    std::vector<int> positions(circuit.parts.size(), 0);
    for (std::size_t i = 0; i < circuit.parts.size(); ++i) {
        const auto set = situation.positions.find(circuit.parts[i].id);
        if (!is_control(circuit.parts[i]) || set == situation.positions.end()) continue;
        for (std::size_t k = 0; k < circuit.parts[i].positions.size(); ++k)
            if (circuit.parts[i].positions[k].id == set->second) positions[i] = static_cast<int>(k);
    }
    return positions;
}

bool has_springs(const model::Circuit& circuit) {
    for (const model::Part& part : circuit.parts) {
        if (!is_control(part)) continue;
        if (part.kind->element == "push-button") return true;
        for (const model::Position& position : part.positions)
            if (position.momentary) return true;
    }
    return false;
}

}  // namespace

void PractiseMode::state_choice(const Frame& frame) {
    std::vector<std::string> titles;
    for (const model::OperatingState& state : job_->circuit().states)
        titles.push_back(state.title.empty() ? state.id : state.title);
    if (titles.empty()) return;
    soft_words(frame, "Everything else off, then step by step to:");
    pick_from(frame, "state", titles, state_chosen_);
    const Action action{Verb::state, {job_->circuit().states[at(state_chosen_)].id}};
    if (offers(frame, "bring", "Bring it to that state", action)) act("operate", action);
}

void PractiseMode::switches(const Frame& frame) {
    const model::Circuit& circuit = job_->circuit();
    const network::Situation& situation = job_->session().vehicle().situation();
    const std::vector<int> positions = hand_positions(circuit, situation);
    std::optional<Setting> setting;
    for (int part = 0; part < static_cast<int>(circuit.parts.size()); ++part)
        if (is_control(circuit.parts[at(part)]))
            if (auto here = control(frame, circuit, part, {&positions, nullptr, true})) setting = here;
    if (has_springs(circuit)) {
        soft_words(frame, "What springs back is held");
        constexpr std::array<const char*, 3> kNames{"1 s", "5 s", "by a helper"};
        for (int i = 0; i < 3; ++i) {
            if (i > 0) ImGui::SameLine();
            if (choice(frame, "hold:" + std::to_string(i), kNames[at(i)], static_cast<int>(hold_) == i))
                hold_ = static_cast<Hold>(i);
        }
    }
    if (!setting) return;
    Action action{setting->springs_back && hold_ != Hold::by_a_helper ? Verb::press : Verb::set,
                  {setting->what, setting->to}};
    if (action.verb == Verb::press && hold_ == Hold::longer) action.arguments.emplace_back(kHeldS);
    act("operate", action);
}

void PractiseMode::quantities(const Frame& frame) {
    const model::Quantities& now = job_->session().vehicle().situation().quantities;
    for (const model::Quantity& quantity : job_->circuit().quantities) {
        const auto set = now.find(quantity.id);
        const double is = set == now.end() ? quantity.value : set->second;
        words(quantity.title);
        const auto turned = turned_.find(quantity.id);
        double value = turned == turned_.end() ? is : turned->second;
        if (slide(frame, "control:" + quantity.id, value, quantity.min, quantity.max, quantity.unit))
            turned_[quantity.id] =
                quantity.max - quantity.min < 20 ? std::round(value * 10) / 10 : std::round(value);
        const auto wanted = turned_.find(quantity.id);
        if (wanted == turned_.end()) continue;
        const Action action{Verb::set, {quantity.id, number_text(wanted->second)}};
        if (offers(frame, "set:" + quantity.id,
                   "Set it to " + number_text(wanted->second) + " " + quantity.unit, action))
            return act("operate", action);
    }
}

void PractiseMode::operate_drawer(const Frame& frame) {
    state_choice(frame);
    ImGui::Separator();
    switches(frame);
    quantities(frame);
    ImGui::Separator();
    words("Wait");
    for (const char* seconds : {"1", "5", "30"}) {
        ImGui::SameLine();
        if (button(frame, std::string("wait:") + seconds, std::string(seconds) + " s"))
            act("operate", Action{Verb::wait, {seconds}});
    }
    const Action look{Verb::look, {}};
    if (offers(frame, "look", "Look and listen all round", look)) act("operate", look);
    const Action look_at_all{Verb::look, {"all"}};
    if (offers(frame, "look:all", "Look at everything, also what is still", look_at_all))
        act("operate", look_at_all);
    came_of(frame, "operate");
}

}  // namespace halfsplit::window
