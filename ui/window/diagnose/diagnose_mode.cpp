#include "ui/window/diagnose/diagnose_mode.h"

#include <imgui.h>

#include <algorithm>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/sign.h"
#include "engine/diagnosis/place_of.h"
#include "engine/model/own_states.h"
#include "engine/model/structure.h"
#include "ui/view/readings_table.h"
#include "ui/window/frame/keys.h"

namespace halfsplit::window {

using diagnosis::Finding;
using view::ExpectedRow;

namespace {

/// "F7.1" of a test tip, "F7.1@part".
std::string point_of(const std::string& at) {
    return at.substr(0, at.find('@'));
}

}  // namespace

std::string_view DiagnoseMode::about() const {
    return "At a real vehicle: what should be read where, what your readings mean, and what to do next.";
}

bool DiagnoseMode::takes(const std::string& path) const {
    return path.ends_with(".circuit.xml");
}

Diagnostics DiagnoseMode::open(const std::string& path) {
    auto read = files::read_circuit_on_disk(path);
    if (!read) return read.error();
    const bool is_the_same = path == path_;
    const std::string state = is_the_same && state_ >= 0 ? circuit().states[at(state_)].id : "";
    take_circuit(std::make_shared<const files::CircuitOnDisk>(std::move(*read)), path);
    if (!is_the_same) {
        chosen_.reset();
        cleared_.clear();
        complaint_ = false;
    }
    begin_in(state);
    return {};
}

void DiagnoseMode::take_circuit(std::shared_ptr<const files::CircuitOnDisk> on_disk,
                                const std::string& path) {
    on_disk_ = std::move(on_disk);
    path_ = path;
    const std::shared_ptr<const model::Circuit> circuit(on_disk_, &on_disk_->circuit);
    states_ = model::own_states(*circuit, path);
    for (int state = 0; state < static_cast<int>(circuit->states.size()); ++state)
        if (std::ranges::find(states_, state) == states_.end()) states_.push_back(state);
    notebook_ = Notebook(circuit, path);
    sheets_.begin(circuit);
    reasoning_.begin(on_disk_, path);
    printing_.forget();
    table_.clear();
    drawn_ = window::drawn(circuit);
    expected_ = nullptr;
    near_.reset();
    asked_.reset();
    to_find_.reset();
    asks_anew_ = false;
    has_begun_ = false;
    csv_trouble_.clear();
}

/// In the state that was chosen before, or that the last reading is of, or the first there is.
void DiagnoseMode::begin_in(const std::string& state) {
    state_ = -1;
    if (const model::OperatingState* before = circuit().find_state(state))
        turn_to(static_cast<int>(before - circuit().states.data()));
    else if (!notebook_.readings().empty())
        turn_to(notebook_.readings().back().state);
    else if (!states_.empty())
        turn_to(states_.front());
    know_more();
}

void DiagnoseMode::turn_to(int state) {
    if (state != state_) asked_.reset();
    state_ = state;
    expected_ = nullptr;
    find_extra_rows();
}

void DiagnoseMode::know_more() {
    reasoning_.consider({notebook_.readings(), cleared_, complaint_});
    find_extra_rows();
}

void DiagnoseMode::find_extra_rows() {
    extra_.clear();
    predicted_by_ = reasoning_.consultation();
    if (state_ < 0 || expected_ == nullptr) return;
    const auto add = [&](const Finding& finding) {
        const auto is_it = [&](const ExpectedRow& row) { return is_same_finding(row.finding, finding); };
        if (std::ranges::any_of(expected_->rows, is_it) || std::ranges::any_of(extra_, is_it)) return;
        extra_.push_back(view::expected_row(circuit(), predicted_by_, state_, finding));
    };
    if (asked_ && asked_->state == state_) add(asked_->finding);
    for (const diagnosis::FilledRow& reading : notebook_.readings())
        if (reading.state == state_) add(reading.finding);
}

void DiagnoseMode::advance(double) {
    if (!drawn_ || state_ < 0) return;
    if (!has_begun_) reasoning_.predict();
    has_begun_ = true;
    sheets_.advance();
    reasoning_.advance();
    printing_.advance();
    const ExpectedState* const now = sheets_.of(state_);
    const bool is_new = now != expected_ || predicted_by_ != reasoning_.consultation();
    expected_ = now;
    if (is_new) find_extra_rows();
    if (expected_ != nullptr && to_find_) go_to_part(*to_find_);
}

bool DiagnoseMode::is_lively() const {
    // Predicting takes long, and its bar moves slowly: the window's idle pace is enough for that.
    const bool waits_for_sheet = state_ >= 0 && expected_ == nullptr;
    return waits_for_sheet || sheets_.is_working() || reasoning_.is_concluding();
}

ExpectedRow DiagnoseMode::row_of(const ExpectedState* sheet, const Spotted& what) const {
    if (sheet != nullptr)
        for (const ExpectedRow& row : sheet->rows)
            if (is_same_finding(row.finding, what.finding)) return row;
    return view::expected_row(circuit(), reasoning_.consultation(), what.state, what.finding);
}

Pick DiagnoseMode::pick_of(const Finding& finding) const {
    if (finding.kind == Finding::Kind::current) return {Pick::Kind::wire, finding.at};
    if (finding.kind == Finding::Kind::voltage) {
        Pick point{Pick::Kind::point, point_of(finding.at)};
        if (find_drawn(*drawn_, point, 0)) return point;
        const auto pin = circuit().find_pin(point.name);
        return {Pick::Kind::part, pin ? circuit().parts[at(pin->part)].id : point.name};
    }
    const auto sources = diagnosis::sign_sources(circuit());
    const diagnosis::SignSource* source = find_sign_source(sources, finding.at);
    return {Pick::Kind::part, source == nullptr ? finding.at : circuit().parts[at(source->part)].id};
}

/// A part or a wire.
Pick DiagnoseMode::pick_of_thing(const std::string& id) const {
    const bool is_wire = circuit().find_wire(id) != nullptr;
    return {is_wire ? Pick::Kind::wire : Pick::Kind::part, id};
}

void DiagnoseMode::go_to(const Spotted& what, bool shows) {
    if (what.state != state_) turn_to(what.state);
    asked_ = what;
    opens_table_ = true;
    find_extra_rows();
    table_.go_to(what);
    if (!shows) return;
    chosen_ = pick_of(what.finding);
    to_show_ = chosen_;
}

void DiagnoseMode::go_to_part(int part) {
    to_find_ = part;
    if (expected_ == nullptr) return;
    to_find_.reset();
    const auto row = std::ranges::find(expected_->rows, part, &ExpectedRow::part);
    if (row != expected_->rows.end()) go_to({state_, row->finding}, false);
}

void DiagnoseMode::take_next_test() {
    const auto& conclusion = reasoning_.conclusion();
    if (conclusion && conclusion->next.test) go_to(*conclusion->next.test, true);
}

int DiagnoseMode::chosen_part() const {
    if (!chosen_) return -1;
    if (chosen_->kind == Pick::Kind::point)
        if (const auto pin = circuit().find_pin(chosen_->name)) return pin->part;
    const model::Part* part = circuit().find_part(chosen_->name);
    return part == nullptr ? -1 : static_cast<int>(part - circuit().parts.data());
}

bool DiagnoseMode::is_here(const ExpectedRow& row) const {
    if (asked_ && is_same_finding(asked_->finding, row.finding)) return true;
    if (const int part = chosen_part(); part >= 0) {
        const int place = diagnosis::place_of(circuit(), part);
        return row.part == part || (place >= 0 && row.finding.place == place);
    }
    return std::ranges::any_of(row.wires,
                               [&](int wire) { return circuit().wires[at(wire)].id == chosen_->name; });
}

std::vector<ExpectedTable::Group> DiagnoseMode::groups() const {
    std::vector<ExpectedTable::Group> groups;
    if (!extra_.empty()) groups.push_back({"Not on the sheet", {}});
    for (const ExpectedRow& row : extra_) groups.back().rows.push_back(&row);
    for (const ExpectedRow& row : expected_->rows) {
        if (only_here_ && chosen_ && !is_here(row)) continue;
        const int place = row.finding.place;
        const bool is_sign = row.finding.kind == Finding::Kind::sign;
        const std::string heading = is_sign     ? "Look and listen"
                                    : place < 0 ? "Anywhere"
                                                : circuit().places[at(place)].title;
        if (groups.empty() || groups.back().heading != heading) groups.push_back({heading, {}});
        groups.back().rows.push_back(&row);
    }
    return groups;
}

void DiagnoseMode::do_in_table(const TableDeed& deed) {
    if (deed.taken) notebook_.put(*deed.taken);
    if (deed.taken_back) notebook_.take_back(*deed.taken_back);
    if (deed.taken || deed.taken_back) know_more();
    if (!deed.shown) return;
    chosen_ = pick_of(deed.shown->finding);
    to_show_ = chosen_;
}

void DiagnoseMode::done_on_paper(const PaperDeed& deed) {
    near_ = deed.near;
    if (deed.beside) chosen_.reset();
    if (!deed.first || state_ < 0) return;
    chosen_ = deed.first;
    const std::string& name = chosen_->name;
    if (chosen_->kind == Pick::Kind::wire)
        return go_to({state_, {Finding::Kind::current, name, "", -1}}, false);
    const int part = chosen_part();
    if (chosen_->kind == Pick::Kind::part && part >= 0) return go_to_part(part);
    const int place = part < 0 ? -1 : diagnosis::place_of(circuit(), part);
    go_to({state_, {Finding::Kind::voltage, name, std::string(model::kBodyId), place}}, false);
}

void DiagnoseMode::keys() {
    const auto pressed = [](Key key) { return ImGui::IsKeyPressed(static_cast<int>(key), false); };
    if (!drawn_) return;
    if (pressed(Key::n)) take_next_test();
    if (pressed(Key::h)) only_here_ = !only_here_;
    if (pressed(Key::c)) {
        complaint_ = !complaint_;
        know_more();
    }
}

std::vector<std::pair<std::string, std::string>> DiagnoseMode::key_list() const {
    return {{"N", "to the next test's field"},
            {"Enter", "in a field: take what was read; an empty one takes it back"},
            {"Tab", "in a field: to the next one"},
            {"H", "only what is here, or all"},
            {"C", "something is certainly wrong, or not"}};
}

std::string DiagnoseMode::hint() const {
    return "click a point to write down what is read there; N: the next test";
}

}  // namespace halfsplit::window
