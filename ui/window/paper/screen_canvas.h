#pragma once

#include <imgui.h>

#include "ui/view/diagram/canvas.h"
#include "ui/window/frame/frame.h"
#include "ui/window/paper/viewport.h"

namespace halfsplit::window {

/// Draws diagrams on the screen: the same that SvgCanvas draws on paper.
class ScreenCanvas : public view::diagram::Canvas {
  public:
    /// Borrows all of them for a frame.
    ScreenCanvas(ImDrawList& list, const Viewport& viewport, const Frame& frame)
        : list_(list), viewport_(viewport), frame_(frame) {}

    void polyline(const std::vector<view::diagram::Place>& places, const view::diagram::Pen& pen) override;
    void polygon(const std::vector<view::diagram::Place>& places, view::diagram::Colour fill) override;
    void rectangle(view::diagram::Place left_top, view::diagram::Place right_bottom,
                   const view::diagram::Pen& pen) override;
    void circle(view::diagram::Place centre, double radius, const view::diagram::Pen& pen) override;
    void disc(view::diagram::Place centre, double radius, view::diagram::Colour fill) override;
    void arc(view::diagram::Place centre, double radius, double from_deg, double to_deg,
             const view::diagram::Pen& pen) override;
    void text(view::diagram::Place at, const std::string& line, double width, double size,
              view::diagram::Colour colour) override;
    void begin(const view::diagram::Subject&) override {}
    void end() override {}
    void clip(const view::diagram::Box& box) override;
    void unclip() override;

  private:
    ImVec2 on_screen(view::diagram::Place place) const {
        return {viewport_.x_px(place.x), viewport_.y_px(place.y)};
    }
    ImU32 colour(view::diagram::Colour colour) const;
    /// All on one side of what is seen.
    bool is_out_of_sight(const std::vector<ImVec2>& points) const;
    float stroke_px(double width) const;
    void dashed(const std::vector<ImVec2>& points, double dash, ImU32 colour, float width_px);

    ImDrawList& list_;
    const Viewport& viewport_;
    const Frame& frame_;
};

}  // namespace halfsplit::window
