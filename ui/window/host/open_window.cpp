#include "ui/window/host/open_window.h"

#include <GLFW/glfw3.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <algorithm>
#include <memory>

#include "ui/files/desktop_dialog.h"
#include "ui/files/text_files.h"
#include "ui/window/desk/desk.h"
#include "ui/window/frame/input_feed.h"
#include "ui/window/frame/landmarks_json.h"
#include "ui/window/host/glfw_events.h"
#include "ui/window/host/kept_liking.h"
#include "ui/window/host/picture.h"

namespace halfsplit::window {

namespace {

/// After something was done: widgets take a frame or two to show it.
constexpr int kFramesAfterInput = 3;
/// How long an idle window sleeps at most: what is under way beside it is looked at then.
constexpr double kIdleS = 0.5;
constexpr double kFrameS = 1.0 / 60;

struct GlfwCloser {
    void operator()(GLFWwindow* window) const { glfwDestroyWindow(window); }
};
using GlfwWindow = std::unique_ptr<GLFWwindow, GlfwCloser>;

/// GLFW itself, from beginning to end.
struct Glfw {
    Glfw() : works(glfwInit() == GLFW_TRUE) {}
    Glfw(const Glfw&) = delete;
    Glfw& operator=(const Glfw&) = delete;
    ~Glfw() {
        if (works) glfwTerminate();
    }
    bool works;
};

/// ImGui's context, and what draws for it.
struct Imgui {
    Imgui() {
        ImGui::CreateContext();
        ImGui::GetIO().IniFilename = nullptr;
        ImGui::GetIO().ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
        map_keys(ImGui::GetIO());
        ImGui_ImplOpenGL3_Init("#version 130");
    }
    Imgui(const Imgui&) = delete;
    Imgui& operator=(const Imgui&) = delete;
    ~Imgui() {
        ImGui_ImplOpenGL3_Shutdown();
        ImGui::DestroyContext();
    }
};

void share_clipboard(GLFWwindow* window) {
    ImGuiIO& io = ImGui::GetIO();
    io.ClipboardUserData = window;
    io.SetClipboardTextFn = [](void* to, const char* text) {
        glfwSetClipboardString(static_cast<GLFWwindow*>(to), text);
    };
    io.GetClipboardTextFn = [](void* from) { return glfwGetClipboardString(static_cast<GLFWwindow*>(from)); };
}

GlfwWindow made_window(const WindowOptions& options) {
    glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
    glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 0);
    glfwWindowHint(GLFW_SAMPLES, 0);
    return GlfwWindow(glfwCreateWindow(options.width, options.height, "Halfsplit", nullptr, nullptr));
}

double content_scale(GLFWwindow* window) {
    float x = 1;
    float y = 1;
    glfwGetWindowContentScale(window, &x, &y);
    return std::max(1.0F, std::max(x, y));
}

/// The desk in its window, frame after frame.
class Show {
  public:
    Show(GLFWwindow* window, const WindowOptions& options)
        : window_(window), options_(options), desk_(liking(window, options)), kept_(desk_.liking()) {
        gather_events(window, gathered_);
        share_clipboard(window);
        desk_.offer_dialog(files::desktop_dialog());
        if (!options.places.empty()) desk_.keep_landmarks(true);
        // In this order: a job opened in Author is opened to be changed, in Practise to be done.
        if (!options.mode.empty()) desk_.turn_to(options.mode);
        if (!options.file.empty()) desk_.open(options.file);
    }

    /// What is asked for; else what it was last time; else what the desktop says.
    static Liking liking(GLFWwindow* window, const WindowOptions& options) {
        Liking like = kept_liking().value_or(Liking{content_scale(window), false});
        like.scale = options.scale.value_or(like.scale);
        like.dark = options.dark.value_or(like.dark);
        return like;
    }

    void run() {
        double before = glfwGetTime();
        int drawn = 0;
        while (glfwWindowShouldClose(window_) == 0 && !desk_.wants_to_close()) {
            if (!wait()) continue;
            const double now = glfwGetTime();
            draw(options_.frames > 0 ? kFrameS : now - before);
            before = now;
            if (++drawn == options_.frames) break;
        }
        if (!options_.picture.empty()) take_picture();
        if (desk_.liking() != kept_) keep_liking(desk_.liking());
        // Who closes it is not kept waiting for work that comes to nothing now.
        glfwHideWindow(window_);
        glfwPollEvents();
    }

  private:
    /// Until there is something to draw; false where there is nothing after all.
    bool wait() {
        const auto in_a_hurry = [this] {
            return desk_.is_lively() || awake_ > 0 || !gathered_.feed.is_empty() || options_.frames > 0;
        };
        if (in_a_hurry())
            glfwPollEvents();
        else
            glfwWaitEventsTimeout(kIdleS);
        int width = 0;
        int height = 0;
        glfwGetFramebufferSize(window_, &width, &height);
        const bool is_new = glfwGetTime() > looked_around_s_ + kIdleS && look_around();
        const bool is_touched = is_new || !gathered_.feed.is_empty() || gathered_.must_refresh ||
                                width != width_ || height != height_;
        gathered_.must_refresh = false;
        width_ = width;
        height_ = height;
        awake_ = is_touched ? kFramesAfterInput : std::max(awake_ - 1, 0);
        return is_touched || in_a_hurry();
    }

    bool look_around() {
        looked_around_s_ = glfwGetTime();
        return desk_.look_around();
    }

    void dress_anew() {
        dress(ImGui::GetStyle(), desk_.frame().theme, desk_.frame().scale);
        desk_.set_fonts(add_fonts(*ImGui::GetIO().Fonts, desk_.frame().scale));
        ImGui_ImplOpenGL3_DestroyFontsTexture();
    }

    void draw(double gone_s) {
        ImGuiIO& io = ImGui::GetIO();
        io.DisplaySize = {static_cast<float>(width_), static_cast<float>(height_)};
        io.DeltaTime = static_cast<float>(std::clamp(gone_s, 1e-4, 1.0));
        if (desk_.take_change_of_looks()) dress_anew();
        gathered_.feed.feed(io);
        ImGui_ImplOpenGL3_NewFrame();
        ImGui::NewFrame();
        desk_.draw(gone_s);
        ImGui::Render();
        glViewport(0, 0, width_, height_);
        ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
        glfwSwapBuffers(window_);
        tell_places();
    }

    void tell_places() {
        if (options_.places.empty()) return;
        std::string text = landmarks_json(desk_.landmarks());
        if (text == told_places_) return;
        files::write_atomically(options_.places, text);
        told_places_ = std::move(text);
    }

    void take_picture() {
        ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
        write_picture(options_.picture, width_, height_);
    }

    GLFWwindow* window_;
    const WindowOptions& options_;
    Gathered gathered_;
    Desk desk_;
    int awake_ = kFramesAfterInput;
    int width_ = 0;
    int height_ = 0;
    Liking kept_;
    double looked_around_s_ = 0;
    std::string told_places_;
};

}  // namespace

std::string open_window(const WindowOptions& options) {
    const Glfw glfw;
    if (!glfw.works) return "there is no display to open a window on";
    const GlfwWindow window = made_window(options);
    if (!window) return "no window can be opened here: OpenGL 3.0 is expected";
    glfwMakeContextCurrent(window.get());
    glfwSwapInterval(1);
    const Imgui imgui;
    Show(window.get(), options).run();
    return "";
}

}  // namespace halfsplit::window
