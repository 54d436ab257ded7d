#pragma once

#include <imgui.h>

#include <algorithm>
#include <string>
#include <vector>

#include "ui/view/diagram/geometry.h"
#include "ui/window/frame/colours.h"
#include "ui/window/frame/frame.h"
#include "ui/window/paper/viewport.h"

namespace halfsplit::window {

/// Draws in the diagram's coordinates.
class Pencil {
  public:
    Pencil(ImDrawList& list, const Viewport& viewport, const Frame& frame)
        : list_(list), viewport_(viewport), frame_(frame) {}

    ImVec2 on_screen(double x, double y) const { return {viewport_.x_px(x), viewport_.y_px(y)}; }
    float px(double units) const { return static_cast<float>(units * viewport_.px_per_unit()); }
    const Frame& frame() const { return frame_; }
    ImDrawList& list() const { return list_; }

    /// `away`: drawn so far to the left and above.
    void path(const std::vector<view::diagram::Spot>& spots, Colour colour, double width,
              double away = 0) const {
        std::vector<ImVec2> points;
        points.reserve(spots.size());
        for (const view::diagram::Spot& spot : spots)
            points.push_back(on_screen(spot.x - away, spot.y - away));
        list_.AddPolyline(points.data(), static_cast<int>(points.size()), packed(colour), 0,
                          std::max(2.0F, px(width)));
    }

    void frame_around(const view::diagram::Box& box, Colour colour, double away) const {
        list_.AddRect(on_screen(box.left - away, box.top - away),
                      on_screen(box.right + away, box.bottom + away), packed(colour), px(1.5), 0,
                      std::max(2.0F, frame_.px(2)));
    }

    /// How much room a plate takes whose left middle is at this pixel.
    ScreenBox plate_box(ImVec2 left, const std::string& words) const {
        const ImVec2 extent = frame_.fonts.text->CalcTextSizeA(letters_px(), 1e6F, 0, words.c_str());
        return {left.x, left.y - extent.y / 2 - 1, left.x + extent.x + frame_.px(6),
                left.y + extent.y / 2 + 1};
    }

    /// A line of text on a plate of its own, its left middle at the place; readable at any zoom.
    void plate(double x, double y, const std::string& words, Colour letters) const {
        plate(plate_box(on_screen(x, y), words), words, letters);
    }

    void plate(const ScreenBox& box, const std::string& words, Colour letters) const {
        list_.AddRectFilled({box.left, box.top}, {box.right, box.bottom}, packed(frame_.theme.note, 0.92),
                            frame_.px(2));
        list_.AddRect({box.left, box.top}, {box.right, box.bottom},
                      packed(mixed(frame_.theme.note, frame_.theme.text, 0.4)), frame_.px(2));
        list_.AddText(frame_.fonts.text, letters_px(), {box.left + frame_.px(3), box.top + 1},
                      packed(letters), words.c_str());
    }

    float letters_px() const { return frame_.px(13); }

  private:
    ImDrawList& list_;
    const Viewport& viewport_;
    const Frame& frame_;
};

}  // namespace halfsplit::window
