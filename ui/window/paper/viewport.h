#pragma once

#include "ui/view/diagram/canvas.h"
#include "ui/window/frame/landmarks.h"

namespace halfsplit::window {

/// Which part of a drawing is seen where on the screen.
class Viewport {
  public:
    void set_screen(const ScreenBox& screen) { screen_ = screen; }
    const ScreenBox& screen() const { return screen_; }
    double px_per_unit() const { return px_per_unit_; }

    float x_px(double x) const { return static_cast<float>(screen_.left + (x - left_) * px_per_unit_); }
    float y_px(double y) const { return static_cast<float>(screen_.top + (y - top_) * px_per_unit_); }
    view::diagram::Place place_at(float x, float y) const {
        return {left_ + (x - screen_.left) / px_per_unit_, top_ + (y - screen_.top) / px_per_unit_};
    }

    /// All of the box, as large as it goes, in the middle.
    void fit(const view::diagram::Box& box);
    /// The same where letters can be read then; else its upper end, as wide as there is room or at least so
    /// large.
    void fit_readable(const view::diagram::Box& box, double least_px_per_unit);
    /// The place comes into the middle; not smaller than it can be read.
    void centre_on(const view::diagram::Place& place, double least_px_per_unit);
    /// What is under that pixel stays there.
    void zoom(double factor, float x, float y);
    void pan(float by_x_px, float by_y_px);

  private:
    ScreenBox screen_;
    double left_ = 0;
    double top_ = 0;
    double px_per_unit_ = 2;
};

}  // namespace halfsplit::window
