#include <algorithm>
#include <cmath>
#include <iterator>

#include "engine/base/index.h"
#include "ui/view/table.h"
#include "ui/window/hands/faults_of.h"
#include "ui/window/study/study_mode.h"

namespace halfsplit::window {

namespace {

std::string current_words(double current_a) {
    const double size = std::abs(current_a);
    if (size < 0.0005) return "";
    return size < 1 ? view::fixed(1000 * size, size < 0.1 ? 1 : 0) + " mA" : view::fixed(size, 2) + " A";
}

/// One number where both ends of a wire are on it, as a voltmeter's two decimals go.
std::string potential_words(double from_v, double to_v) {
    const std::string from = view::fixed(from_v, 2) + " V";
    const std::string to = view::fixed(to_v, 2) + " V";
    return from == to ? from : from + " to " + to;
}

std::string words_for(diagnosis::Shows shows, double share) {
    if (share < 0.01) return "";
    switch (shows) {
        case diagnosis::Shows::rotor:
            return share < 0.75 ? "turns slowly" : "turns";
        case diagnosis::Shows::sound:
            return share < 0.6 ? "sounds weakly" : "sounds";
        case diagnosis::Shows::heat:
            return "warm";
        case diagnosis::Shows::fuse:
            return "blown";
        case diagnosis::Shows::plunger:
            return "pulled in";
        default:
            return share < 0.5 ? "dim" : "lit";
    }
}

}  // namespace

void StudyMode::find_branches() {
    branches_.clear();
    const auto& branches = bench_->course().network().branches;
    for (int i = 0; i < static_cast<int>(branches.size()); ++i) branches_[branches[at(i)].name].push_back(i);
    const auto& nodes = bench_->course().network().point_nodes;
    const auto node_of = [&](const model::PinRef& pin) {
        const auto found = nodes.find(drawn_->circuit->point_name(pin));
        return found == nodes.end() ? network::kBody : found->second;
    };
    wires_.clear();
    for (const model::Wire& wire : drawn_->circuit->wires)
        wires_.push_back({node_of(wire.from), node_of(wire.to), branches_[wire.id]});
    look();
    since_read_s_ = 1;
}

void StudyMode::look() {
    now_ = bench_->solution();
    const simulation::Course& course = bench_->course();
    shares_.assign(sources_.size(), 0);
    for (std::size_t i = 0; i < sources_.size(); ++i) {
        const diagnosis::SignSource& source = sources_[i];
        if (source.shows == diagnosis::Shows::fuse || source.shows == diagnosis::Shows::plunger)
            shares_[i] = course.conditions()[at(source.part)] == 0 ? 0 : 1;
        else if (const auto found = branches_.find(source.branch); found != branches_.end())
            shares_[i] =
                diagnosis::shown_share(source, found->second, course.network(), course.conditions(), now_);
    }
}

void StudyMode::mark_parts(Marks& marks) const {
    const model::Circuit& circuit = *drawn_->circuit;
    for (std::size_t i = 0; i < sources_.size(); ++i) {
        PartLook& look = marks.parts[circuit.parts[at(sources_[i].part)].id];
        const std::string words = words_for(sources_[i].shows, shares_[i]);
        if (!words.empty()) look.words = look.words.empty() ? words : look.words + ", " + words;
        if (sources_[i].shows == diagnosis::Shows::fuse) continue;
        look.glow = std::max(look.glow, std::clamp(shares_[i], 0.0, 1.2));
        if (sources_[i].shows == diagnosis::Shows::rotor && shares_[i] > 0.01) look.turn = turns_[i];
    }
    const std::vector<int>& conditions = bench_->course().conditions();
    for (int part = 0; part < static_cast<int>(circuit.parts.size()); ++part) {
        const model::Part& each = circuit.parts[at(part)];
        if (each.kind->operation == model::Operation::none || each.positions.empty()) continue;
        if (diagnosis::is_fuse(each)) continue;
        const int condition = conditions[at(part)];
        if (condition <= 0 || condition >= static_cast<int>(each.positions.size())) continue;
        const model::Position& position = each.positions[at(condition)];
        PartLook& look = marks.parts[each.id];
        if (look.words.empty()) look.words = position.title.empty() ? position.id : position.title;
    }
}

void StudyMode::mark_wires(Marks& marks) const {
    if (overlay_ == Overlay::plain) return;
    double most_v = drawn_->circuit->nominal_v;
    for (const double volts : now_.potential_v) most_v = std::max(most_v, volts);
    const auto potential = [&](int node) { return node == network::kBody ? 0 : now_.potential_v[at(node)]; };
    const model::Circuit& circuit = *drawn_->circuit;
    for (std::size_t i = 0; i < wires_.size(); ++i) {
        const double from_v = potential(wires_[i].from);
        const double to_v = potential(wires_[i].to);
        double flow_a = 0;
        for (const int branch : wires_[i].branches) flow_a += now_.current_a[at(branch)];
        WireLook look{(from_v + to_v) / 2 / most_v, flow_a, ""};
        if (shows_numbers_)
            look.words =
                overlay_ == Overlay::currents ? current_words(flow_a) : potential_words(from_v, to_v);
        marks.wires.emplace(circuit.wires[i].id, std::move(look));
    }
    const auto& points = bench_->course().network().point_nodes;
    for (const model::Part& part : circuit.parts) {
        if (!is_one_point(part)) continue;
        if (const auto found = points.find(part.id); found != points.end())
            marks.wires[part.id].potential_share = potential(found->second) / most_v;
    }
}

/// Where the recorder's clips and clamps are, by the number of the channel.
void StudyMode::mark_channels(Marks& marks) const {
    int number = 0;
    for (const instruments::Channel& channel : recorder_.strip().channels)
        marks.leads.push_back({LeadMark::Pole::other, channel.name, std::to_string(++number)});
}

Marks StudyMode::marks() const {
    Marks marks;
    if (!bench_) return marks;
    mark_parts(marks);
    mark_wires(marks);
    mark_chosen(marks);
    mark_channels(marks);
    std::ranges::copy(leads_.marks(), std::back_inserter(marks.leads));
    marks.chosen = chosen_;
    const network::Situation& situation = bench_->situation();
    for (const std::string& name : situation.pulled) marks.away[name] = "pulled";
    for (const std::string& name : situation.unplugged) marks.away[name] = "unplugged";
    for (const network::Fault& fault : situation.faults)
        marks.doubts[marked_by(*drawn_->circuit, fault)] = fault.text;
    return marks;
}

}  // namespace halfsplit::window
