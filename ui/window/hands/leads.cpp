#include "ui/window/hands/leads.h"

#include <imgui.h>

#include <algorithm>

#include "engine/base/index.h"
#include "ui/window/frame/widgets.h"

namespace halfsplit::window {

using instruments::Connection;

namespace {

const char* const kBody = "body";

std::string where(const std::string& point) {
    if (point.empty()) return "nowhere yet";
    return point == kBody ? "the body" : point;
}

}  // namespace

Connection LeadsInHand::connection() const {
    const instruments::Instrument* instrument = instruments::find_instrument(instrument_);
    return instrument == nullptr ? Connection::two_points : instrument->connection;
}

void LeadsInHand::take(const std::string& instrument_id) {
    const Connection before = connection();
    instrument_ = instrument_id;
    if (connection() != before) lift();
}

void LeadsInHand::lift() {
    leads_ = {"", kBody};
}

bool LeadsInHand::put(const Pick& pick, bool first) {
    switch (connection()) {
        case Connection::two_points:
            if (pick.kind != Pick::Kind::point) return false;
            (first ? leads_.at : leads_.against) = pick.name;
            return true;
        case Connection::in_series:
        case Connection::around_wire:
            if (pick.kind == Pick::Kind::part) return false;
            leads_.at = pick.name;
            return true;
        case Connection::on_fuse:
            // A point of the fuse is as good as the fuse.
            leads_.at =
                pick.kind == Pick::Kind::point ? pick.name.substr(0, pick.name.find_last_of('.')) : pick.name;
            return pick.kind != Pick::Kind::wire;
    }
    return false;
}

bool LeadsInHand::is_placed() const {
    return !leads_.at.empty() && (connection() != Connection::two_points || !leads_.against.empty());
}

std::string LeadsInHand::hint() const {
    switch (connection()) {
        case Connection::two_points:
            return "Left button on a point: red lead (+). Right button: black lead (-).";
        case Connection::in_series:
            return "Left button on a wire or a contact: it is parted there and the meter goes in.";
        case Connection::around_wire:
            return "Left button on a wire or a contact: the clamp goes around it.";
        case Connection::on_fuse:
            return "Left button on a fuse: on its two test points.";
    }
    return "";
}

std::vector<LeadMark> LeadsInHand::marks() const {
    std::vector<LeadMark> marks;
    if (leads_.at.empty() || connection() == Connection::on_fuse) return marks;
    if (connection() != Connection::two_points) return {{LeadMark::Pole::other, leads_.at, "A"}};
    marks.push_back({LeadMark::Pole::positive, leads_.at, "+"});
    if (leads_.against != kBody) marks.push_back({LeadMark::Pole::negative, leads_.against, "-"});
    return marks;
}

void leads_drawer(const Frame& frame, const std::vector<std::string>& allowed, LeadsInHand& leads) {
    std::vector<std::string> ids;
    std::vector<std::string> titles;
    for (const instruments::Instrument& instrument : instruments::instruments()) {
        if (!allowed.empty() && std::ranges::find(allowed, instrument.id) == allowed.end()) continue;
        ids.emplace_back(instrument.id);
        titles.emplace_back(instrument.title);
    }
    int chosen = static_cast<int>(std::ranges::find(ids, leads.instrument()) - ids.begin());
    if (pick_from(frame, "instrument", titles, chosen)) leads.take(ids[at(chosen)]);
    if (const instruments::Instrument* instrument = instruments::find_instrument(leads.instrument()))
        soft_words(frame, std::string(instrument->text));
    const auto* instrument = instruments::find_instrument(leads.instrument());
    if (instrument == nullptr || instrument->connection != Connection::two_points) {
        words("At " + where(leads.leads().at));
        return;
    }
    words("Red (+) on " + where(leads.leads().at) + ", black (-) on " + where(leads.leads().against));
    if (leads.leads().against != kBody && button(frame, "black-on-body", "Black on the body"))
        leads.put_second_on_body();
}

}  // namespace halfsplit::window
