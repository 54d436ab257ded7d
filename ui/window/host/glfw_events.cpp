#include "ui/window/host/glfw_events.h"

#include <GLFW/glfw3.h>

#include <map>

namespace halfsplit::window {

namespace {

Key key_of(int glfw) {
    const auto offset = [glfw](int first, Key ours) {
        return static_cast<Key>(static_cast<int>(ours) + glfw - first);
    };
    if (glfw >= GLFW_KEY_A && glfw <= GLFW_KEY_Z) return offset(GLFW_KEY_A, Key::a);
    if (glfw >= GLFW_KEY_0 && glfw <= GLFW_KEY_9) return offset(GLFW_KEY_0, Key::digit_0);
    if (glfw >= GLFW_KEY_KP_0 && glfw <= GLFW_KEY_KP_9) return offset(GLFW_KEY_KP_0, Key::digit_0);
    if (glfw >= GLFW_KEY_F1 && glfw <= GLFW_KEY_F12) return offset(GLFW_KEY_F1, Key::f1);
    static const std::map<int, Key> kOthers{{GLFW_KEY_TAB, Key::tab},
                                            {GLFW_KEY_LEFT, Key::left},
                                            {GLFW_KEY_RIGHT, Key::right},
                                            {GLFW_KEY_UP, Key::up},
                                            {GLFW_KEY_DOWN, Key::down},
                                            {GLFW_KEY_PAGE_UP, Key::page_up},
                                            {GLFW_KEY_PAGE_DOWN, Key::page_down},
                                            {GLFW_KEY_HOME, Key::home},
                                            {GLFW_KEY_END, Key::end},
                                            {GLFW_KEY_INSERT, Key::insert},
                                            {GLFW_KEY_DELETE, Key::del},
                                            {GLFW_KEY_BACKSPACE, Key::backspace},
                                            {GLFW_KEY_SPACE, Key::space},
                                            {GLFW_KEY_ENTER, Key::enter},
                                            {GLFW_KEY_KP_ENTER, Key::enter},
                                            {GLFW_KEY_ESCAPE, Key::escape},
                                            {GLFW_KEY_MINUS, Key::minus},
                                            {GLFW_KEY_KP_SUBTRACT, Key::minus},
                                            {GLFW_KEY_EQUAL, Key::plus},  // unshifted, on most keyboards
                                            {GLFW_KEY_KP_ADD, Key::plus},
                                            {GLFW_KEY_COMMA, Key::comma},
                                            {GLFW_KEY_PERIOD, Key::period},
                                            {GLFW_KEY_SLASH, Key::slash},
                                            {GLFW_KEY_LEFT_CONTROL, Key::control},
                                            {GLFW_KEY_RIGHT_CONTROL, Key::control},
                                            {GLFW_KEY_LEFT_SHIFT, Key::shift},
                                            {GLFW_KEY_RIGHT_SHIFT, Key::shift},
                                            {GLFW_KEY_LEFT_ALT, Key::alt},
                                            {GLFW_KEY_RIGHT_ALT, Key::alt}};
    const auto found = kOthers.find(glfw);
    return found == kOthers.end() ? Key::none : found->second;
}

/// Letters by what is printed on the key, wherever the keyboard has it.
int as_printed(int key, int scancode) {
    const char* name = key >= GLFW_KEY_A && key <= GLFW_KEY_Z ? glfwGetKeyName(key, scancode) : nullptr;
    if (name == nullptr || name[0] < 'a' || name[0] > 'z' || name[1] != '\0') return key;
    return GLFW_KEY_A + (name[0] - 'a');
}

Gathered& gathered_of(GLFWwindow* window) {
    return *static_cast<Gathered*>(glfwGetWindowUserPointer(window));
}

InputFeed& feed_of(GLFWwindow* window) {
    return gathered_of(window).feed;
}

void tell_place(GLFWwindow* window) {
    double x = 0;
    double y = 0;
    glfwGetCursorPos(window, &x, &y);
    InputEvent event;
    event.x = static_cast<float>(x);
    event.y = static_cast<float>(y);
    feed_of(window).push(event);
}

void on_button(GLFWwindow* window, int button, int action, int) {
    if (button > 2) return;
    tell_place(window);
    InputEvent event;
    event.kind = InputEvent::Kind::button;
    event.button = button;
    event.down = action == GLFW_PRESS;
    feed_of(window).push(event);
}

void on_move(GLFWwindow* window, double, double) {
    tell_place(window);
}

void on_wheel(GLFWwindow* window, double x, double y) {
    InputEvent event;
    event.kind = InputEvent::Kind::wheel;
    event.x = static_cast<float>(x);
    event.y = static_cast<float>(y);
    feed_of(window).push(event);
}

void on_key(GLFWwindow* window, int key, int scancode, int action, int) {
    InputEvent event;
    event.kind = InputEvent::Kind::key;
    event.key = key_of(as_printed(key, scancode));
    event.down = action != GLFW_RELEASE;
    if (event.key != Key::none && action != GLFW_REPEAT) feed_of(window).push(event);
}

void on_letter(GLFWwindow* window, unsigned letter) {
    InputEvent event;
    event.kind = InputEvent::Kind::letter;
    event.letter = letter;
    feed_of(window).push(event);
}

void on_enter(GLFWwindow* window, int inside) {
    if (inside != 0) return;
    InputEvent event;
    event.kind = InputEvent::Kind::leave;
    feed_of(window).push(event);
}

}  // namespace

void gather_events(GLFWwindow* window, Gathered& gathered) {
    glfwSetWindowUserPointer(window, &gathered);
    glfwSetWindowRefreshCallback(window, [](GLFWwindow* which) { gathered_of(which).must_refresh = true; });
    glfwSetMouseButtonCallback(window, &on_button);
    glfwSetCursorPosCallback(window, &on_move);
    glfwSetScrollCallback(window, &on_wheel);
    glfwSetKeyCallback(window, &on_key);
    glfwSetCharCallback(window, &on_letter);
    glfwSetCursorEnterCallback(window, &on_enter);
}

}  // namespace halfsplit::window
