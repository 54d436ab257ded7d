#pragma once

#include <map>
#include <string>

#include "ui/view/diagram/canvas.h"

namespace halfsplit::window {

/// A rectangle on the screen, in pixels.
struct ScreenBox {
    float left = 0;
    float top = 0;
    float right = 0;
    float bottom = 0;

    float centre_x() const { return (left + right) / 2; }
    float centre_y() const { return (top + bottom) / 2; }
    bool contains(float x, float y) const { return left <= x && x < right && top <= y && y < bottom; }
};

/// Where everything with a name is on the screen, this frame: "button:done", "point:K2.85", "part:K2". Tests
/// click by name, and geometry is checked by it.
class Landmarks {
  public:
    /// Nobody asks for them in everyday use: then they are not kept.
    void keep(bool wanted) { is_kept_ = wanted; }
    bool is_kept() const { return is_kept_; }
    void clear() { boxes_.clear(); }
    void put(const std::string& name, const ScreenBox& box) {
        if (is_kept_) boxes_[name] = box;
    }
    const ScreenBox* find(const std::string& name) const {
        const auto found = boxes_.find(name);
        return found == boxes_.end() ? nullptr : &found->second;
    }
    const std::map<std::string, ScreenBox>& all() const { return boxes_; }

  private:
    bool is_kept_ = false;
    std::map<std::string, ScreenBox> boxes_;
};

}  // namespace halfsplit::window
