#pragma once

#include <deque>

#include "ui/window/frame/keys.h"

struct ImGuiIO;

namespace halfsplit::window {

/// Something a person did with the mouse or the keyboard.
struct InputEvent {
    enum class Kind { move, button, wheel, key, letter, leave };
    Kind kind = Kind::move;
    float x = 0;  ///< of a move: where to, in pixels; of the wheel: how far
    float y = 0;
    int button = 0;  ///< 0 left, 1 right, 2 middle
    Key key = Key::none;
    bool down = false;
    unsigned letter = 0;  ///< Unicode
};

/// Hands events on to ImGui, which looks at the state of things once a frame only: no button and no key goes
/// down and up within one frame, and the mouse stays where it was clicked. So nothing quick is lost.
class InputFeed {
  public:
    void push(const InputEvent& event) { events_.push_back(event); }
    /// What fits into the next frame.
    void feed(ImGuiIO& io);
    bool is_empty() const { return events_.empty(); }

  private:
    std::deque<InputEvent> events_;
};

/// Tells ImGui which keys are which. Once for a context.
void map_keys(ImGuiIO& io);

}  // namespace halfsplit::window
