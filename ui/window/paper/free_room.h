#pragma once

#include <vector>

#include "ui/window/frame/landmarks.h"

namespace halfsplit::window {

/// Where on the screen something can still be written without covering anything.
class FreeRoom {
  public:
    explicit FreeRoom(const ScreenBox& screen) : screen_(screen) {}

    void take(const ScreenBox& box) {
        if (overlap(box, screen_)) taken_.push_back(box);
    }
    const ScreenBox& screen() const { return screen_; }
    bool is_free(const ScreenBox& box) const {
        if (box.left < screen_.left || box.right > screen_.right || box.top < screen_.top ||
            box.bottom > screen_.bottom)
            return false;
        for (const ScreenBox& each : taken_)
            if (overlap(box, each)) return false;
        return true;
    }

  private:
    static bool overlap(const ScreenBox& a, const ScreenBox& b) {
        return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
    }

    ScreenBox screen_;
    std::vector<ScreenBox> taken_;
};

}  // namespace halfsplit::window
