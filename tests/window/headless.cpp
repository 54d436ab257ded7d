#include "tests/window/headless.h"

#include <imgui.h>

#include <stdexcept>

namespace halfsplit::test {

namespace {

constexpr double kFrameS = 1.0 / 60;

}  // namespace

Headless::Headless(int width, int height, const window::Liking& liking)
    : context_(ImGui::CreateContext()), desk_(std::make_unique<window::Desk>(liking)) {
    ImGui::SetCurrentContext(context_);
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
    io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
    io.DisplaySize = {static_cast<float>(width), static_cast<float>(height)};
    io.ClipboardUserData = &clipboard_;
    io.SetClipboardTextFn = [](void* to, const char* text) { *static_cast<std::string*>(to) = text; };
    io.GetClipboardTextFn = [](void* from) -> const char* {
        return static_cast<std::string*>(from)->c_str();
    };
    window::map_keys(io);
    desk_->keep_landmarks(true);
    window::InputEvent away;
    away.kind = window::InputEvent::Kind::leave;
    feed_.push(away);
    frames(2);
}

Headless::~Headless() {
    desk_.reset();
    ImGui::DestroyContext(context_);
}

void Headless::frames(int count) {
    ImGui::SetCurrentContext(context_);
    ImGuiIO& io = ImGui::GetIO();
    for (int i = 0; i < count || !feed_.is_empty(); ++i) {
        if (desk_->take_change_of_looks()) {
            window::dress(ImGui::GetStyle(), desk_->frame().theme, desk_->frame().scale);
            desk_->set_fonts(window::add_fonts(*io.Fonts, desk_->frame().scale));
            unsigned char* pixels = nullptr;
            int width = 0;
            int height = 0;
            io.Fonts->GetTexDataAsRGBA32(&pixels, &width, &height);
        }
        io.DeltaTime = static_cast<float>(kFrameS);
        feed_.feed(io);
        ImGui::NewFrame();
        desk_->draw(kFrameS);
        ImGui::Render();
    }
}

bool Headless::frames_until(const std::function<bool()>& done, int most) {
    for (int i = 0; i < most; ++i) {
        if (done()) return true;
        frames(1);
    }
    return done();
}

void Headless::send_mouse_to(const std::string& name) {
    const window::ScreenBox* box = desk_->landmarks().find(name);
    if (box == nullptr) throw std::runtime_error("nothing on the screen is called " + name);
    window::InputEvent event;
    event.x = box->centre_x();
    event.y = box->centre_y();
    feed_.push(event);
}

void Headless::move_to(const std::string& name) {
    send_mouse_to(name);
    frames(2);
}

void Headless::press_mouse(const std::string& name, int button) {
    move_to(name);
    window::InputEvent event;
    event.kind = window::InputEvent::Kind::button;
    event.button = button;
    event.down = true;
    feed_.push(event);
    frames(2);
}

void Headless::release_mouse(int button) {
    window::InputEvent event;
    event.kind = window::InputEvent::Kind::button;
    event.button = button;
    feed_.push(event);
    frames(2);
}

void Headless::click_at_once(const std::string& name, int times) {
    send_mouse_to(name);
    for (int i = 0; i < times; ++i)
        for (const bool down : {true, false}) {
            window::InputEvent event;
            event.kind = window::InputEvent::Kind::button;
            event.down = down;
            feed_.push(event);
        }
    frames(2 + 2 * times);
}

void Headless::click(const std::string& name, int button) {
    press_mouse(name, button);
    release_mouse(button);
}

void Headless::key(window::Key key, bool with_control) {
    const auto push = [this](window::Key which, bool down) {
        window::InputEvent event;
        event.kind = window::InputEvent::Kind::key;
        event.key = which;
        event.down = down;
        feed_.push(event);
    };
    if (with_control) push(window::Key::control, true);
    push(key, true);
    frames(2);
    push(key, false);
    if (with_control) push(window::Key::control, false);
    frames(2);
}

void Headless::type(std::string_view ascii) {
    for (const char letter : ascii) {
        window::InputEvent event;
        event.kind = window::InputEvent::Kind::letter;
        event.letter = static_cast<unsigned char>(letter);
        feed_.push(event);
    }
    frames(2);
}

void Headless::wheel(const std::string& over, float steps) {
    move_to(over);
    window::InputEvent event;
    event.kind = window::InputEvent::Kind::wheel;
    event.y = steps;
    feed_.push(event);
    frames(2);
}

void Headless::drag(const std::string& name, float right_px) {
    press_mouse(name);
    window::InputEvent event;
    event.x = ImGui::GetIO().MousePos.x + right_px;
    event.y = ImGui::GetIO().MousePos.y;
    feed_.push(event);
    frames(2);
    release_mouse();
}

bool Headless::says(const std::string& text) {
    std::string line;
    for (const char letter : words()) {
        const bool is_space = letter == ' ' || letter == '\n';
        if (!is_space || (!line.empty() && line.back() != ' ')) line += is_space ? ' ' : letter;
    }
    return line.find(text) != std::string::npos;
}

std::string Headless::words() {
    ImGui::SetCurrentContext(context_);
    clipboard_.clear();
    ImGuiIO& io = ImGui::GetIO();
    io.DeltaTime = static_cast<float>(kFrameS);
    ImGui::NewFrame();
    ImGui::LogToClipboard(-1);
    desk_->draw(kFrameS);
    ImGui::LogFinish();
    ImGui::Render();
    // ImGui opens all drawers to read them out: what is clicked next is where it is when they are as they
    // were.
    frames(1);
    return clipboard_;
}

int Headless::drawn_vertices() const {
    ImGui::SetCurrentContext(context_);
    return ImGui::GetDrawData()->TotalVtxCount;
}

}  // namespace halfsplit::test
