#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/instruments/strip.h"
#include "ui/window/frame/frame.h"
#include "ui/window/recorder/chart_view.h"

namespace halfsplit::window {

/// What a recorder has kept, drawn against time, with two cursors to read it by.
class RecorderScreen {
  public:
    ChartView& view() { return view_; }
    const ChartView& view() const { return view_; }

    /// Fills what is left of ImGui's current window.
    void draw(const Frame& frame, const instruments::Strip& strip);
    /// What the cursors show, and everything that can be done with them, for the trolley.
    void readings(const Frame& frame, const instruments::Strip& strip);
    /// While there is something to be seen.
    void keys(const instruments::Strip& strip);
    static std::vector<std::pair<std::string, std::string>> key_list();

    /// How high it is at best, of so much room.
    static float height_px(const Frame& frame, float room_px);

  private:
    void between_rises(const instruments::Strip& strip);
    void pan(const instruments::Strip& strip, int halves);
    void steer(const instruments::Strip& strip, float left_px, float width_px);

    ChartView view_;
    std::size_t rises_of_ = 0;  ///< channel that the cursors are put on the rises of
    std::optional<std::size_t> held_cursor_;
    std::string trouble_;
};

}  // namespace halfsplit::window
