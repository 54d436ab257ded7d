#include <imgui.h>

#include <algorithm>
#include <array>

#include "engine/base/index.h"
#include "engine/diagnosis/place_of.h"
#include "engine/diagnosis/sheet/caution.h"
#include "engine/practice/session/toll.h"
#include "ui/view/point_rows.h"
#include "ui/view/session_text.h"
#include "ui/view/sheet_text.h"
#include "ui/window/frame/widgets.h"
#include "ui/window/practise/possible.h"
#include "ui/window/practise/practise_mode.h"

namespace halfsplit::window {

using practice::Action;
using practice::Verb;

namespace {

/// Ratings of blade fuses in A (ISO 8820-3 and 8820-4; from memory).
constexpr std::array kRatingsA{"1",  "2",  "3",  "4",  "5",  "7.5", "10", "15",
                               "20", "25", "30", "35", "40", "50",  "60", "80"};

std::string wires_at(const model::Circuit& circuit, const std::string& point) {
    std::string text;
    for (const model::Wire& wire : circuit.wires)
        if (circuit.point_name(wire.from) == point || circuit.point_name(wire.to) == point)
            text += (text.empty() ? "" : ", ") + wire.id + " " + view::wire_text(wire);
    return text;
}

}  // namespace

void PractiseMode::in_hand_words(const Frame& frame) {
    const model::Circuit& circuit = job_->circuit();
    if (const model::Wire* wire = circuit.find_wire(chosen_->name);
        wire != nullptr && chosen_->kind == Pick::Kind::wire) {
        words(wire->id + "  " + view::wire_text(*wire) + " mm², " + circuit.point_name(wire->from) + " to " +
              circuit.point_name(wire->to));
    } else if (const model::Part* part = part_of(circuit, *chosen_)) {
        const bool is_point = chosen_->kind == Pick::Kind::point;
        words((chosen_->name == part->id ? "" : chosen_->name + " of ") + view::part_text(*part));
        if (const std::string wires = is_point ? wires_at(circuit, chosen_->name) : ""; !wires.empty())
            words("wires there: " + wires);
    }
    place_in_hand(frame);
    if (const model::Part* part = part_of(circuit, *chosen_))
        for (const diagnosis::Caution& each :
             diagnosis::cautions_for(circuit, {static_cast<int>(part - circuit.parts.data())}))
            if (!each.always) caution(frame, view::caution_text(circuit, each));
}

void PractiseMode::place_in_hand(const Frame& frame) {
    const model::Circuit& circuit = job_->circuit();
    const model::Part* part = part_of(circuit, *chosen_);
    const std::vector<int> places =
        part == nullptr
            ? practice::places_of(circuit, {Verb::inspect, {chosen_->name}})
            : std::vector{diagnosis::place_of(circuit, static_cast<int>(part - circuit.parts.data()))};
    for (const int place : places) {
        if (place < 0) continue;
        const model::Place& where = circuit.places[at(place)];
        const bool is_open = job_->session().open_places()[at(place)] != 0;
        soft_words(frame,
                   where.title + (is_open ? ": open already"
                                          : ": " + view::clock_text(where.access_min) + " to get at it"));
        const Action look{Verb::look, {where.id}};
        if (offers(frame, "do:" + practice::action_text(look), "Look round there", look))
            act("in-hand", look);
    }
}

void PractiseMode::jumper(const Frame& frame) {
    const Action off{Verb::unbridge, {}};
    if (seen_.jumper) {
        words("The jumper lead is on " + seen_.jumper->first + " and " + seen_.jumper->second + ".");
        if (offers(frame, "do:unbridge", "Take the jumper lead off", off)) act("in-hand", off);
        return;
    }
    const bool is_point =
        chosen_ &&
        (chosen_->kind == Pick::Kind::point ||
         (chosen_->kind == Pick::Kind::part && model::is_one_point(*part_of(job_->circuit(), *chosen_))));
    if (jumper_from_.empty()) {
        if (is_point && button(frame, "jumper:here", "Jumper lead: first clip here"))
            jumper_from_ = chosen_->name;
        return;
    }
    words("The jumper lead's first clip is for " + jumper_from_ + "; click the other point.");
    if (is_point && chosen_->name != jumper_from_) {
        const Action bridge{Verb::bridge, {jumper_from_, chosen_->name}};
        if (offers(frame, "jumper:there", "Bridge " + jumper_from_ + " and " + chosen_->name, bridge)) {
            jumper_from_.clear();
            return act("in-hand", bridge);
        }
    }
    const Action to_body{Verb::bridge, {jumper_from_, "body"}};
    if (offers(frame, "jumper:body", "Bridge " + jumper_from_ + " and the body", to_body)) {
        jumper_from_.clear();
        return act("in-hand", to_body);
    }
    if (button(frame, "jumper:away", "Put the jumper lead away")) jumper_from_.clear();
}

void PractiseMode::new_fuse(const Frame& frame) {
    const model::Part* part = part_of(job_->circuit(), *chosen_);
    if (part == nullptr || (part->kind->element != "fuse" && part->kind->element != "fusible-link")) return;
    std::vector<std::string> labels;
    labels.reserve(kRatingsA.size());
    for (const char* rating : kRatingsA) labels.push_back("new fuse of " + std::string(rating) + " A");
    pick_from(frame, "fuse:rating", labels, fuse_rating_);
    const Action fit{Verb::fit, {part->id, kRatingsA[at(fuse_rating_)]}};
    if (offers(frame, "fuse:fit", "Fit it in " + part->id, fit)) act("in-hand", fit);
}

void PractiseMode::in_hand_drawer(const Frame& frame) {
    if (!chosen_) {
        soft_words(frame, "Click a part, a point or a wire on the paper.");
    } else {
        in_hand_words(frame);
        for (const Possible& each : possible_with(job_->circuit(), sources_, seen_, *chosen_))
            if (offers(frame, "do:" + practice::action_text(each.action), each.label, each.action))
                act("in-hand", each.action);
        new_fuse(frame);
        if (button(frame, "do:suspect", "I suspect " + chosen_->name))
            act("in-hand", Action{Verb::suspect, {chosen_->name}});
    }
    jumper(frame);
    came_of(frame, "in-hand");
}

}  // namespace halfsplit::window
