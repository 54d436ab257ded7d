#include "ui/window/frame/input_feed.h"

#include <imgui.h>

#include <limits>
#include <set>

namespace halfsplit::window {

namespace {

struct ThisFrame {
    std::set<int> buttons;
    std::set<Key> keys;
    bool wheel = false;
    bool letters = false;
};

bool is_modifier(Key key) {
    return key == Key::control || key == Key::shift || key == Key::alt;
}

/// A modifier that is let go right after a key counts for that key still.
bool key_fits(Key key, const ThisFrame& frame) {
    return !frame.keys.contains(key) && (!is_modifier(key) || frame.keys.empty());
}

bool fits(const InputEvent& event, const ThisFrame& frame) {
    switch (event.kind) {
        case InputEvent::Kind::move:
        case InputEvent::Kind::leave:
            return frame.buttons.empty() && !frame.wheel;
        case InputEvent::Kind::button:
            return !frame.buttons.contains(event.button) && frame.keys.empty();
        case InputEvent::Kind::wheel:
            return frame.buttons.empty();
        case InputEvent::Kind::key:
            return key_fits(event.key, frame) && frame.buttons.empty();
        case InputEvent::Kind::letter:
            return true;
    }
    return true;
}

void apply(const InputEvent& event, ImGuiIO& io, ThisFrame& frame) {
    switch (event.kind) {
        case InputEvent::Kind::move:
            io.MousePos = {event.x, event.y};
            break;
        case InputEvent::Kind::leave:
            io.MousePos = {-std::numeric_limits<float>::max(), -std::numeric_limits<float>::max()};
            break;
        case InputEvent::Kind::button:
            io.MouseDown[event.button] = event.down;
            frame.buttons.insert(event.button);
            break;
        case InputEvent::Kind::wheel:
            io.MouseWheelH += event.x;
            io.MouseWheel += event.y;
            frame.wheel = true;
            break;
        case InputEvent::Kind::key:
            io.KeysDown[static_cast<int>(event.key)] = event.down;
            if (event.key == Key::control) io.KeyCtrl = event.down;
            if (event.key == Key::shift) io.KeyShift = event.down;
            if (event.key == Key::alt) io.KeyAlt = event.down;
            frame.keys.insert(event.key);
            break;
        case InputEvent::Kind::letter:
            io.AddInputCharacter(event.letter);
            frame.letters = true;
            break;
    }
}

}  // namespace

void InputFeed::feed(ImGuiIO& io) {
    ThisFrame frame;
    while (!events_.empty() && fits(events_.front(), frame)) {
        apply(events_.front(), io, frame);
        events_.pop_front();
    }
}

void map_keys(ImGuiIO& io) {
    const auto map = [&io](ImGuiKey_ theirs, Key ours) { io.KeyMap[theirs] = static_cast<int>(ours); };
    map(ImGuiKey_Tab, Key::tab);
    map(ImGuiKey_LeftArrow, Key::left);
    map(ImGuiKey_RightArrow, Key::right);
    map(ImGuiKey_UpArrow, Key::up);
    map(ImGuiKey_DownArrow, Key::down);
    map(ImGuiKey_PageUp, Key::page_up);
    map(ImGuiKey_PageDown, Key::page_down);
    map(ImGuiKey_Home, Key::home);
    map(ImGuiKey_End, Key::end);
    map(ImGuiKey_Insert, Key::insert);
    map(ImGuiKey_Delete, Key::del);
    map(ImGuiKey_Backspace, Key::backspace);
    map(ImGuiKey_Space, Key::space);
    map(ImGuiKey_Enter, Key::enter);
    map(ImGuiKey_Escape, Key::escape);
    map(ImGuiKey_A, Key::a);
    map(ImGuiKey_C, Key::c);
    map(ImGuiKey_V, Key::v);
    map(ImGuiKey_X, Key::x);
    map(ImGuiKey_Y, Key::y);
    map(ImGuiKey_Z, Key::z);
}

}  // namespace halfsplit::window
