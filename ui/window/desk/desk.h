#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/diagnostic.h"
#include "ui/window/desk/mode.h"
#include "ui/window/frame/frame.h"
#include "ui/window/frame/task.h"
#include "ui/window/paper/paper.h"

namespace halfsplit::window {

inline constexpr double kLeastScale = 0.75;
inline constexpr double kMostScale = 2.5;

/// How somebody likes it.
struct Liking {
    double scale = 1;  ///< of text and lines, from kLeastScale to kMostScale
    bool dark = false;
    friend bool operator==(const Liking&, const Liking&) = default;
};

/// All that the window shows: the bar, the paper, the trolley with its drawers. Draws into ImGui's current
/// frame and knows neither the window system nor the graphics card.
class Desk {
  public:
    explicit Desk(const Liking& liking);

    /// Hands the file to all modes that take it, to each when it is turned to, and turns to the first if this
    /// one does not.
    void open(const std::string& path);

    /// Opens again what was changed on the disk meanwhile, or what was chosen in the desktop's dialog. True
    /// where something was.
    bool look_around();

    /// `gone_s`: since the last frame.
    void draw(double gone_s);

    /// Frames are wanted though nobody touches anything.
    bool is_lively() const;
    bool wants_to_close() const { return wants_to_close_; }
    const Liking& liking() const { return liking_; }
    /// Fonts and sizes have to be made anew: the liking or the screen has changed.
    bool take_change_of_looks();
    void set_fonts(const Fonts& fonts) { frame_.fonts = fonts; }
    /// A program of the desktop's (files/desktop_dialog.h) to choose files with.
    void offer_dialog(std::optional<std::string> program) { dialog_ = std::move(program); }
    const Frame& frame() const { return frame_; }

    /// Empty unless somebody has said that they are wanted.
    const Landmarks& landmarks() const { return landmarks_; }
    void keep_landmarks(bool wanted) { landmarks_.keep(wanted); }
    Mode& mode() { return *modes_[static_cast<std::size_t>(mode_)]; }
    void turn_to(std::string_view mode_id);

  private:
    void bar();
    void hand_over();
    bool open_what_was_chosen();
    void change_mode(int mode);
    void find_field();
    void pages();
    void body();
    void empty_desk();
    void open_drawer();
    void foot();
    std::vector<std::string> files_open() const;
    void key_list();
    void keys();
    void go_on(const DrawnCircuit& drawn);
    void change_scale(double scale);
    void change_ground();

    Liking liking_;
    Frame frame_;
    Landmarks landmarks_;
    Paper paper_;
    std::vector<std::unique_ptr<Mode>> modes_;
    std::vector<std::string> waiting_;  ///< by mode: what it has to open when it is turned to
    int mode_ = 0;
    std::string find_words_;
    bool wants_find_ = false;
    bool shows_keys_ = false;
    bool looks_changed_ = true;
    bool wants_to_close_ = false;
    std::optional<Pick> pick_near_;  ///< what is under the mouse
    Diagnostics problems_;
    std::string path_;                  ///< of what is open
    std::string seen_when_;             ///< when that and all it includes was written
    std::vector<std::string> to_open_;  ///< in this folder
    std::string path_words_;
    std::optional<std::string> dialog_;
    Task<std::optional<std::string>> choosing_;
};

}  // namespace halfsplit::window
