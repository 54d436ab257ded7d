#include <imgui.h>

#include <algorithm>
#include <array>

#include "engine/base/index.h"
#include "engine/model/structure.h"
#include "ui/window/frame/widgets.h"
#include "ui/window/hands/faults_of.h"
#include "ui/window/study/study_mode.h"

namespace halfsplit::window {

namespace {

constexpr std::size_t kMostListed = 12;

std::string wire_words(const model::Circuit& circuit, const model::Wire& wire) {
    std::array<char, 40> size{};
    std::snprintf(size.data(), size.size(), " %g mm², %g m", wire.area_mm2, wire.length_m);
    return wire.base_colour + wire.tracer_colour + size.data() + ", " + circuit.point_name(wire.from) +
           " to " + circuit.point_name(wire.to);
}

}  // namespace

void StudyMode::state_drawer(const Frame& frame) {
    const model::Circuit& circuit = *drawn_->circuit;
    soft_words(frame, circuit.about);
    std::vector<std::string> titles;
    for (const model::OperatingState& state : circuit.states)
        titles.push_back(state.title.empty() ? state.id : state.title);
    int chosen = state_;
    if (!titles.empty() && pick_from(frame, "state", titles, chosen)) begin(chosen);
    char clock[48];
    std::snprintf(clock, sizeof clock, "%.2f s", bench_ ? bench_->now_s() : 0.0);
    if (button(frame, "time:run", is_running_ ? "Stop time" : "Let time run")) is_running_ = !is_running_;
    constexpr std::array<const char*, 3> kPaceNames{"1/10", "1x", "10x"};
    for (int i = 0; i < 3; ++i) {
        ImGui::SameLine();
        if (choice(frame, "time:" + std::to_string(i), kPaceNames[at(i)], pace_ == i)) pace_ = i;
    }
    ImGui::SameLine();
    words(clock);
}

void StudyMode::operate_drawer(const Frame& frame) {
    const auto& conditions = bench_->course().conditions();
    const model::Quantities quantities = bench_->course().network().quantities;
    if (const auto setting = controls(frame, *drawn_->circuit, {&conditions, &quantities})) set(*setting);
}

void StudyMode::meter_drawer(const Frame& frame) {
    leads_drawer(frame, {}, leads_);
    if (reading_ && leads_.is_placed()) {
        ImGui::PushFont(frame.fonts.title);
        words(reading_->shown);
        name_last(frame, "display");
        ImGui::PopFont();
        for (const std::string& text : reading_->cautions) caution(frame, text);
        if (leads_.instrument() == "voltmeter" && leads_.leads().against == model::kBodyId &&
            !has_left_state_)
            for (const view::ExpectedRow* row : expected_at(leads_.leads().at))
                words(row->finding.at + ": " + found_and_expected(*row));
    } else {
        soft_words(frame, leads_.hint());
    }
    tick(frame, "meter:hold", "Hold", is_held_);
    ImGui::SameLine();
    if (button(frame, "meter:lift", "Lift the leads")) leads_.lift();
    if (can_record()) {
        ImGui::SameLine();
        if (button(frame, "channel:on", "Record it")) record_at_leads();
    }
    words("Over the diagram:");
    constexpr std::array<const char*, 3> kNames{"Plain", "Potentials", "Currents"};
    for (int i = 0; i < 3; ++i) {
        if (i > 0) ImGui::SameLine();
        if (choice(frame, "overlay:" + std::to_string(i), kNames[at(i)], static_cast<int>(overlay_) == i))
            overlay_ = static_cast<Overlay>(i);
    }
    tick(frame, "overlay:numbers", "with numbers", shows_numbers_);
}

void StudyMode::chosen_drawer(const Frame& frame, Paper&) {
    if (!chosen_) {
        soft_words(frame, "Click a part, a point or a wire.");
        return;
    }
    const model::Circuit& circuit = *drawn_->circuit;
    std::string name = chosen_->name;
    if (const auto pin = circuit.find_pin(name); pin && chosen_->kind == Pick::Kind::point)
        name = circuit.parts[at(pin->part)].id;
    if (const model::Wire* wire = circuit.find_wire(name)) {
        words(wire->id + "  " + wire_words(circuit, *wire));
    } else if (const model::Part* part = circuit.find_part(name)) {
        words(part->id + "  " + part->title);
        if (const model::Place* place = circuit.find_place(part->place)) soft_words(frame, place->title);
        const int index = static_cast<int>(part - circuit.parts.data());
        const model::Quantities quantities = bench_->course().network().quantities;
        if (is_control(*part))
            if (const auto setting =
                    control(frame, circuit, index, {&bench_->course().conditions(), &quantities}))
                set(*setting);
        const network::Situation& situation = bench_->situation();
        const bool in_socket = part->kind->letter == "F" || part->kind->letter == "K";
        const auto& out = in_socket ? situation.pulled : situation.unplugged;
        const bool is_out = out.contains(name);
        if ((in_socket || part->plugged) && button(frame, "chosen:out",
                                                   in_socket ? (is_out ? "Push it in" : "Pull it out")
                                                             : (is_out ? "Plug it on" : "Unplug it")))
            take_out(name, in_socket, !is_out);
    }
    // A copy: ticking one changes what is there.
    const std::vector<network::Fault> faults = bench_->situation().faults;
    words("What may be wrong with it:");
    for (const std::string& text : faults_about(fault_texts_, name)) {
        bool present =
            std::ranges::any_of(faults, [&](const network::Fault& fault) { return fault.text == text; });
        if (tick(frame, "fault:" + text, text, present)) change_faults(text, present);
    }
}

void StudyMode::faults_drawer(const Frame& frame) {
    // A copy: ticking one changes what is there.
    const std::vector<network::Fault> faults = bench_->situation().faults;
    if (faults.empty()) soft_words(frame, "Nothing is wrong.");
    for (const network::Fault& fault : faults) {
        bool present = true;
        if (tick(frame, "fault:" + fault.text, fault.text, present)) change_faults(fault.text, false);
    }
    type_in(frame, "fault-words", "look for a fault: K2, open, W12 ...", fault_words_);
    if (fault_words_.empty()) return;
    std::size_t listed = 0;
    for (const std::string& text : fault_texts_) {
        if (text.find(fault_words_) == std::string::npos || listed++ >= kMostListed) continue;
        bool present =
            std::ranges::any_of(faults, [&](const network::Fault& fault) { return fault.text == text; });
        if (tick(frame, "found:" + text, text, present)) change_faults(text, present);
    }
    if (listed > kMostListed) soft_words(frame, std::to_string(listed - kMostListed) + " more");
}

void StudyMode::events_drawer(const Frame& frame) {
    if (events_.empty()) soft_words(frame, "Nothing has happened yet.");
    for (std::size_t i = 0; i < std::min(events_.size(), kMostListed); ++i) words(events_[i]);
}

void StudyMode::trolley(const Frame& frame, Paper& paper) {
    if (!drawn_) return;
    if (!trouble_.empty()) caution(frame, trouble_);
    drawer(frame, "state", drawn_->circuit->title, true, [&] { state_drawer(frame); });
    if (!bench_) return;
    drawer(frame, "meter", "Instrument", true, [&] { meter_drawer(frame); });
    if (recorder_.is_on()) drawer(frame, "recorder", "Recorder", true, [&] { recorder_drawer(frame); });
    drawer(frame, "operate", "Operate", true, [&] { operate_drawer(frame); });
    drawer(frame, "chosen", chosen_ ? "In hand: " + chosen_->name : "In hand", true,
           [&] { chosen_drawer(frame, paper); });
    if (chosen_ && state_ >= 0)
        drawer(frame, "expected", "What should be found", true, [&] { expected_words(frame); });
    drawer(frame, "way", "Way of the current", false, [&] { way_drawer(frame); });
    drawer(frame, "faults", "Faults", false, [&] { faults_drawer(frame); });
    drawer(frame, "events", "What happened", false, [&] { events_drawer(frame); });
}

}  // namespace halfsplit::window
