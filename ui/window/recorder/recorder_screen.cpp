#include "ui/window/recorder/recorder_screen.h"

#include <imgui.h>

#include <algorithm>
#include <array>

#include "ui/view/strip_text.h"
#include "ui/window/frame/colours.h"
#include "ui/window/frame/keys.h"
#include "ui/window/frame/widgets.h"
#include "ui/window/recorder/draw_chart.h"

namespace halfsplit::window {

using instruments::Strip;

namespace {

/// Of the width, by one push of a key.
constexpr double kKeyShare = 0.002;
constexpr double kTenTimes = 10;
constexpr std::array kCursorNames{"A", "B"};

bool is_pushed(Key key, bool again) {
    return ImGui::IsKeyPressed(static_cast<int>(key), again);
}

}  // namespace

float RecorderScreen::height_px(const Frame& frame, float room_px) {
    return std::min(frame.px(250), 0.45F * room_px);
}

void RecorderScreen::between_rises(const Strip& strip) {
    rises_of_ = std::min(rises_of_, strip.channels.size() - 1);
    trouble_ = put_on_rises(view_, strip, rises_of_)
                   ? ""
                   : view::channel_text(strip.channels[rises_of_]) +
                         " does not rise twice in what is seen; look at a longer while";
}

void RecorderScreen::pan(const Strip& strip, int halves) {
    if (strip.time_s.empty()) return;
    view_.pan(halves, strip.time_s.front(), strip.time_s.back());
}

void RecorderScreen::steer(const Strip& strip, float left_px, float width_px) {
    const ImGuiIO& io = ImGui::GetIO();
    const double share = std::clamp((io.MousePos.x - left_px) / width_px, 0.0F, 1.0F);
    if (ImGui::IsItemHovered() && io.MouseWheel != 0) {
        if (io.KeyShift)
            pan(strip, io.MouseWheel > 0 ? -1 : 1);
        else
            view_.change_span(io.MouseWheel > 0 ? -1 : 1, share);
    }
    if (ImGui::IsItemActivated()) held_cursor_ = view_.nearest_cursor(share);
    if (!ImGui::IsItemActive()) held_cursor_.reset();
    if (held_cursor_) view_.put_cursor(*held_cursor_, view_.time_at(share));
}

void RecorderScreen::draw(const Frame& frame, const Strip& strip) {
    const ImVec2 from = ImGui::GetCursorScreenPos();
    const ImVec2 room = ImGui::GetContentRegionAvail();
    ImGui::GetWindowDrawList()->AddRectFilled(from, {from.x + room.x, from.y + room.y},
                                              packed(frame.theme.paper));
    const ChartPlaces places = chart_places(frame, {from.x, from.y, from.x + room.x, from.y + room.y}, strip);
    ImGui::SetCursorScreenPos({places.plot.left, places.plot.top});
    ImGui::InvisibleButton("recorder",
                           {places.plot.right - places.plot.left, places.plot.bottom - places.plot.top});
    name_last(frame, "recorder:plot");
    steer(strip, places.plot.left, places.plot.right - places.plot.left);
    draw_chart(frame, places, strip, view_);
}

void RecorderScreen::readings(const Frame& frame, const Strip& strip) {
    const double first_s = view_.cursor_s(0);
    const double second_s = view_.cursor_s(1);
    if (ImGui::BeginTable("cursors", 4, ImGuiTableFlags_SizingStretchProp | ImGuiTableFlags_RowBg)) {
        const auto row = [](const std::array<std::string, 4>& cells) {
            ImGui::TableNextRow();
            for (const std::string& cell : cells) {
                ImGui::TableNextColumn();
                ImGui::TextUnformatted(cell.c_str());
            }
        };
        row({"Cursor", "A", "B", "B − A"});
        row({"time", view::seconds_text(first_s), view::seconds_text(second_s),
             view::seconds_text(second_s - first_s)});
        int number = 0;
        for (const view::CursorReading& each : view::cursor_readings(strip, first_s, second_s))
            row({std::to_string(++number), each.at_first, each.at_second, each.difference});
        ImGui::EndTable();
    }
    const std::string rate = view::rate_text(second_s - first_s);
    words("One round from A to B: " + (rate.empty() ? "no time" : rate));
    name_last(frame, "recorder:rate");
    int number = 0;
    for (const view::CursorReading& each : view::cursor_readings(strip, first_s, second_s))
        if (++number; !each.swept.empty())
            soft_words(frame, std::to_string(number) + " between them: " + each.swept);

    if (button(frame, "recorder:rises", "Two rises")) between_rises(strip);
    for (std::size_t i = 0; strip.channels.size() > 1 && i < strip.channels.size(); ++i) {
        ImGui::SameLine();
        if (choice(frame, "recorder:of:" + std::to_string(i + 1), std::to_string(i + 1), rises_of_ == i))
            rises_of_ = i;
    }
    if (!trouble_.empty()) caution(frame, trouble_);
    for (std::size_t i = 0; i < kCursorNames.size(); ++i) {
        const std::string name = kCursorNames[i];
        if (i > 0) ImGui::SameLine(0, frame.px(16));
        if (button(frame, "cursor:back:" + name, "< " + name)) view_.move_cursor(i, -kKeyShare);
        ImGui::SameLine();
        if (button(frame, "cursor:on:" + name, name + " >")) view_.move_cursor(i, kKeyShare);
    }
    ImGui::AlignTextToFramePadding();
    words("Seen: " + view::seconds_text(view_.span_s()));
    ImGui::SameLine();
    if (button(frame, "recorder:shorter", "Shorter")) view_.change_span(-1, 1);
    ImGui::SameLine();
    if (button(frame, "recorder:longer", "Longer")) view_.change_span(1, 1);
}

void RecorderScreen::keys(const Strip& strip) {
    const double share = ImGui::GetIO().KeyShift ? kKeyShare * kTenTimes : kKeyShare;
    if (is_pushed(Key::e, true)) view_.move_cursor(0, -share);
    if (is_pushed(Key::r, true)) view_.move_cursor(0, share);
    if (is_pushed(Key::u, true)) view_.move_cursor(1, -share);
    if (is_pushed(Key::i, true)) view_.move_cursor(1, share);
    if (is_pushed(Key::n, false)) between_rises(strip);
    if (is_pushed(Key::j, true)) pan(strip, -1);
    if (is_pushed(Key::k, true)) pan(strip, 1);
    if (is_pushed(Key::x, false)) view_.change_span(-1, 1);
    if (is_pushed(Key::v, false)) view_.change_span(1, 1);
}

std::vector<std::pair<std::string, std::string>> RecorderScreen::key_list() {
    return {{"E R, U I", "cursor A back and on, cursor B back and on; with Shift ten times as far"},
            {"N", "cursors on two rises that follow each other; the next two"},
            {"X, V", "a shorter or a longer while of the recording"},
            {"J, K", "what was recorded earlier, later"}};
}

}  // namespace halfsplit::window
