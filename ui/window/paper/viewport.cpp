#include "ui/window/paper/viewport.h"

#include <algorithm>

namespace halfsplit::window {

namespace {

constexpr double kLeastPxPerUnit = 0.15;
constexpr double kMostPxPerUnit = 16;
constexpr double kMostFittedPxPerUnit = 4;

}  // namespace

void Viewport::fit(const view::diagram::Box& box) {
    const double width = std::max(box.width(), 1);
    const double height = std::max(box.height(), 1);
    const double room_x = std::max(screen_.right - screen_.left, 1.0F);
    const double room_y = std::max(screen_.bottom - screen_.top, 1.0F);
    px_per_unit_ =
        std::clamp(std::min(room_x / width, room_y / height), kLeastPxPerUnit, kMostFittedPxPerUnit);
    left_ = box.left - (room_x / px_per_unit_ - width) / 2;
    top_ = box.top - (room_y / px_per_unit_ - height) / 2;
}

void Viewport::fit_readable(const view::diagram::Box& box, double least_px_per_unit) {
    fit(box);
    if (px_per_unit_ >= least_px_per_unit) return;
    const double width = std::max(box.width(), 1);
    const double room_x = std::max(screen_.right - screen_.left, 1.0F);
    px_per_unit_ = std::clamp(room_x / width, least_px_per_unit, kMostFittedPxPerUnit);
    left_ = box.left - std::max(0.0, (room_x / px_per_unit_ - width) / 2);
    top_ = box.top;
}

void Viewport::centre_on(const view::diagram::Place& place, double least_px_per_unit) {
    px_per_unit_ = std::max(px_per_unit_, least_px_per_unit);
    left_ = place.x - (screen_.right - screen_.left) / px_per_unit_ / 2;
    top_ = place.y - (screen_.bottom - screen_.top) / px_per_unit_ / 2;
}

void Viewport::zoom(double factor, float x, float y) {
    const view::diagram::Place under = place_at(x, y);
    px_per_unit_ = std::clamp(px_per_unit_ * factor, kLeastPxPerUnit, kMostPxPerUnit);
    left_ = under.x - (x - screen_.left) / px_per_unit_;
    top_ = under.y - (y - screen_.top) / px_per_unit_;
}

void Viewport::pan(float by_x_px, float by_y_px) {
    left_ -= by_x_px / px_per_unit_;
    top_ -= by_y_px / px_per_unit_;
}

}  // namespace halfsplit::window
