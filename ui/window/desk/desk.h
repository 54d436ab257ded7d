#pragma once

#include <memory>
#include <string>
#include <vector>

#include "engine/base/diagnostic.h"
#include "ui/window/desk/mode.h"
#include "ui/window/frame/frame.h"
#include "ui/window/paper/paper.h"

namespace halfsplit::window {

/// How somebody likes it.
struct Liking {
    double scale = 1;  ///< of text and lines: 0.75 to 2.5
    bool dark = false;
};

/// All that the window shows: the bar, the paper, the trolley with its drawers. Draws into ImGui's current
/// frame and knows neither the window system nor the graphics card.
class Desk {
  public:
    explicit Desk(const Liking& liking);

    /// Hands the file to all modes, and turns to the first that takes it.
    void open(const std::string& path);

    /// `gone_s`: since the last frame.
    void draw(double gone_s);

    /// Frames are wanted though nobody touches anything.
    bool is_lively() const;
    bool wants_to_close() const { return wants_to_close_; }
    const Liking& liking() const { return liking_; }
    /// Fonts and sizes have to be made anew: the liking or the screen has changed.
    bool take_change_of_looks();
    void set_fonts(const Fonts& fonts) { frame_.fonts = fonts; }
    const Frame& frame() const { return frame_; }

    const Landmarks& landmarks() const { return landmarks_; }
    Mode& mode() { return *modes_[static_cast<std::size_t>(mode_)]; }
    void turn_to(std::string_view mode_id);

  private:
    void bar();
    void find_field();
    void pages();
    void body();
    void empty_desk();
    void foot();
    void key_list();
    void keys();
    void change_scale(double scale);
    void change_ground();

    Liking liking_;
    Frame frame_;
    Landmarks landmarks_;
    Paper paper_;
    std::vector<std::unique_ptr<Mode>> modes_;
    int mode_ = 0;
    std::string find_words_;
    bool wants_find_ = false;
    bool shows_keys_ = false;
    bool looks_changed_ = true;
    bool wants_to_close_ = false;
    std::string near_;  ///< what is under the mouse
    Diagnostics problems_;
};

}  // namespace halfsplit::window
