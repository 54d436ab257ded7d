#include "ui/window/diagnose/notebook.h"

#include <algorithm>
#include <utility>

#include "ui/files/readings_file.h"
#include "ui/files/text_files.h"
#include "ui/view/readings_table.h"

namespace halfsplit::window {

using diagnosis::FilledRow;

namespace {

std::string counted(std::size_t readings) {
    return std::to_string(readings) + (readings == 1 ? " reading" : " readings");
}

auto same_as(const Spotted& what) {
    return [&what](const FilledRow& each) {
        return each.state == what.state && is_same_finding(each.finding, what.finding);
    };
}

}  // namespace

Notebook::Notebook(std::shared_ptr<const model::Circuit> circuit, const std::string& circuit_path)
    : circuit_(std::move(circuit)),
      path_(files::readings_path(circuit_path)),
      name_(files::circuit_name(circuit_path)) {
    if (!files::is_there(path_)) return;
    const auto rows = files::read_text(path_).and_then(
        [&](const std::string& text) { return diagnosis::read_readings(*circuit_, text, path_); });
    if (!rows) {
        holds_something_else_ = true;
        told_ = path_ + " holds something else, and is put aside as soon as there is something to keep: " +
                to_text(rows.error().front());
        return;
    }
    for (const FilledRow& row : *rows) enter(row);
    if (!readings_.empty()) told_ = counted(readings_.size()) + " from " + path_ + ".";
}

const FilledRow* Notebook::find(const Spotted& what) const {
    const auto found = std::ranges::find_if(readings_, same_as(what));
    return found == readings_.end() ? nullptr : &*found;
}

void Notebook::enter(const FilledRow& reading) {
    std::erase_if(readings_, same_as({reading.state, reading.finding}));
    readings_.push_back(reading);
}

void Notebook::put(FilledRow reading) {
    told_.clear();
    if (const FilledRow* before = find({reading.state, reading.finding}))
        reading.is_complaint = before->is_complaint;
    enter(reading);
    keep();
}

void Notebook::mark(const Spotted& what, bool is_complaint) {
    const auto found = std::ranges::find_if(readings_, same_as(what));
    if (found == readings_.end()) return;
    found->is_complaint = is_complaint;
    keep();
}

void Notebook::take_back(const Spotted& what) {
    if (std::erase_if(readings_, same_as(what)) > 0) keep();
}

void Notebook::begin_anew() {
    readings_.clear();
    told_.clear();
    keep();
}

Diagnostics Notebook::read_in(const std::string& path) {
    const auto rows = files::read_text(path).and_then(
        [&](const std::string& text) { return diagnosis::read_readings(*circuit_, text, path); });
    if (!rows) return rows.error();
    for (const FilledRow& row : *rows) enter(row);
    told_ = counted(rows->size()) + " from " + path + ".";
    if (!rows->empty()) keep();
    return {};
}

void Notebook::keep() {
    if (holds_something_else_) {
        const std::string aside = files::unused_path(name_ + ".unread", ".csv");
        if (!files::put_aside(path_, aside)) {
            trouble_ = "The readings are not kept: " + path_ + " holds something else.";
            return;
        }
        holds_something_else_ = false;
        told_ = "What stood in " + path_ + " is now in " + aside + ".";
    }
    const bool is_kept =
        files::write_atomically(path_, view::csv_text(view::readings_table(*circuit_, readings_)));
    trouble_ = is_kept ? "" : "The readings are not kept: " + path_ + " cannot be written.";
}

}  // namespace halfsplit::window
