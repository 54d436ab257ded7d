#pragma once

#include <functional>
#include <memory>
#include <string>
#include <string_view>

#include "ui/window/desk/desk.h"
#include "ui/window/frame/input_feed.h"

struct ImGuiContext;

namespace halfsplit::test {

/// The desk without a window: frames are drawn into memory, hands are told what to do by name.
class Headless {
  public:
    explicit Headless(int width = 1600, int height = 1000, const window::Liking& liking = {});
    Headless(const Headless&) = delete;
    Headless& operator=(const Headless&) = delete;
    ~Headless();

    window::Desk& desk() { return *desk_; }

    /// So many frames of a sixtieth of a second.
    void frames(int count = 1);
    /// Frames until nothing is worked at any more; false after `most`.
    bool frames_until(const std::function<bool()>& done, int most = 20000);

    bool is_there(const std::string& name) const { return desk_->landmarks().find(name) != nullptr; }
    /// Moves the mouse there and clicks. Throws where nothing of this name is on the screen.
    void click(const std::string& name, int button = 0);
    /// The mouse comes and clicks so many times, all before the next frame is drawn.
    void click_at_once(const std::string& name, int times);
    void press_mouse(const std::string& name, int button = 0);
    void release_mouse(int button = 0);
    /// Pressed in the middle of what has this name, and let go so many pixels further to the right.
    void drag(const std::string& name, float right_px);
    void key(window::Key key, bool with_control = false);
    void type(std::string_view ascii);
    void wheel(const std::string& over, float steps);

    /// All the words in the drawers, as the screen has them now.
    std::string words();
    /// Whether they are among them, whatever line breaks they have come to.
    bool says(const std::string& text);

    /// Of the frame drawn last.
    int drawn_vertices() const;

  private:
    void send_mouse_to(const std::string& name);
    void move_to(const std::string& name);

    ImGuiContext* context_;
    window::InputFeed feed_;
    std::unique_ptr<window::Desk> desk_;
    std::string clipboard_;
};

}  // namespace halfsplit::test
