#include "ui/view/path_table.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <set>

#include "engine/base/number.h"
#include "ui/view/plug_drop.h"

namespace halfsplit::view {

using tracing::Path;
using tracing::Role;
using tracing::Step;

namespace {

constexpr std::string_view kPartSide = "@part";

std::string without_side(const std::string& point) {
    return point.ends_with(kPartSide) ? point.substr(0, point.size() - kPartSide.size()) : point;
}

/// Between a plug and its part; not a contact of a coupling.
bool is_plug(const Step& step) {
    return step.role == Role::connection && without_side(step.from) == without_side(step.to);
}

/// Nothing a reader wants a line for.
bool is_sound_plug(const Step& step) {
    return is_plug(step) && step.conducts && std::abs(step.from_v - step.to_v) < kPlugDropWorthShowingV;
}

class PathTable {
  public:
    explicit PathTable(const Path& path) : path_(path) {
        for (const Step& step : path.steps)
            if (is_sound_plug(step)) folded_.insert(without_side(step.from));
    }

    Table table() {
        using Align = Table::Align;
        table_.columns = {{"", Align::right},        {"what", Align::left},  {"from -> to", Align::left},
                          {"wire", Align::left},     {"place", Align::left}, {"volts", Align::right},
                          {"amperes", Align::right}, {"", Align::left}};
        table_.rows.push_back(
            {"", "", shown(path_.start), "", start_place(), volts_text(path_.start_v), "", ""});
        for (const Step& step : told_steps(path_)) add(step);
        return std::move(table_);
    }

  private:
    /// Where the plug contact is sound its two sides are one point to a reader.
    std::string shown(const std::string& point) const {
        const std::string plain = without_side(point);
        return folded_.contains(plain) ? plain : point;
    }

    std::string start_place() const { return path_.steps.empty() ? "" : path_.steps.front().from_place; }

    void add(const Step& step) {
        table_.rows.push_back({std::to_string(table_.rows.size()), what(step),
                               shown(step.from) + " -> " + shown(step.to), wire(step), place(step),
                               volts_text(step.to_v), amperes_text(std::abs(step.current_a)), note(step)});
    }

    static std::string what(const Step& step) {
        if (is_plug(step) || step.title.empty()) return step_name(step);
        return step_name(step) + " " + step.title;
    }

    static std::string wire(const Step& step) {
        if (step.wire < 0) return "";
        std::string text = step.colour;
        if (step.area_mm2 > 0) text += (text.empty() ? "" : " ") + number_text(step.area_mm2);
        return text;
    }

    static std::string place(const Step& step) {
        if (step.from_place.empty() || step.to_place.empty() || step.from_place == step.to_place)
            return step.from_place.empty() ? step.to_place : step.from_place;
        return step.from_place + " - " + step.to_place;
    }

    static std::string note(const Step& step) {
        std::string text;
        const auto add_note = [&](const std::string& note) { text += (text.empty() ? "" : ", ") + note; };
        if (!step.conducts) add_note("OPEN");
        if (step.role == Role::load) add_note("load");
        if (step.role == Role::fault) add_note("fault");
        // A strap between body and battery carries what it gets, either way.
        const bool meets_body = step.from_node == network::kBody || step.to_node == network::kBody;
        if (step.conducts && !meets_body && step.current_a < -tracing::kNoCurrentA)
            add_note("against the usual way");
        if (step.to_floats) add_note("floating");
        return text;
    }

    const Path& path_;
    std::set<std::string> folded_;  ///< points whose plug contact is left out
    Table table_;
};

}  // namespace

std::string step_name(const Step& step) {
    if (is_plug(step)) return "plug contact " + step.name;
    const bool one_of_its_kind = step.role == Role::protection || step.role == Role::conductor;
    return step.part >= 0 && one_of_its_kind ? step.name.substr(0, step.name.find('.')) : step.name;
}

std::vector<Step> told_steps(const Path& path) {
    std::vector<Step> told;
    std::ranges::copy_if(path.steps, std::back_inserter(told),
                         [](const Step& step) { return !is_sound_plug(step); });
    return told;
}

Table path_table(const Path& path) {
    return PathTable(path).table();
}

}  // namespace halfsplit::view
