#include <imgui.h>

#include <algorithm>
#include <optional>

#include "engine/base/index.h"
#include "ui/view/strip_text.h"
#include "ui/window/frame/widgets.h"
#include "ui/window/study/study_mode.h"

namespace halfsplit::window {

using instruments::Channel;
using instruments::Connection;

tl::expected<void, Diagnostics> StudyMode::go_on(double seconds) {
    auto done = recorder_.advance(*bench_, seconds);
    screen_.view().follow(bench_->now_s());
    return done;
}

std::optional<Channel> StudyMode::channel_at_leads() const {
    const auto* instrument = instruments::find_instrument(leads_.instrument());
    if (instrument == nullptr || !leads_.is_placed()) return std::nullopt;
    if (instrument->connection == Connection::two_points)
        return Channel{leads_.leads().at, false, leads_.leads().against};
    if (instrument->connection == Connection::around_wire) return Channel{leads_.leads().at, true};
    return std::nullopt;
}

void StudyMode::record_at_leads() {
    if (!bench_) return;
    const auto channel = channel_at_leads();
    if (!channel) return;
    const auto done = recorder_.put_on(*bench_, *channel);
    trouble_ = done ? "" : done.error().front().message;
    find_branches();
}

bool StudyMode::can_record() const {
    const std::vector<Channel>& taken = recorder_.strip().channels;
    const auto channel = channel_at_leads();
    return channel && taken.size() < instruments::kMostChannels &&
           std::ranges::find(taken, *channel) == taken.end();
}

void StudyMode::recorder_drawer(const Frame& frame) {
    const instruments::Strip& strip = recorder_.strip();
    std::optional<std::size_t> taken_off;
    for (std::size_t i = 0; i < strip.channels.size(); ++i) {
        const std::string number = std::to_string(i + 1);
        if (button(frame, "channel:off:" + number, "Take off")) taken_off = i;
        ImGui::SameLine();
        ImGui::AlignTextToFramePadding();
        words(number + ": " + view::channel_text(strip.channels[i]));
    }
    if (taken_off) take_result(recorder_.take_off(*bench_, *taken_off));
    screen_.readings(frame, strip);
}

void StudyMode::screen(const Frame& frame) {
    screen_.draw(frame, recorder_.strip());
}

}  // namespace halfsplit::window
