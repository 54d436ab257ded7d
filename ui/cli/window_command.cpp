#include "ui/cli/window_command.h"

#include <CLI/CLI.hpp>
#include <cstdlib>
#include <memory>

#include "ui/cli/circuit_file.h"
#include "ui/cli/command.h"
#include "ui/window/host/open_window.h"

namespace halfsplit::cli {

namespace {

struct WindowCommand {
    window::WindowOptions window;
    double scale = 0;
    bool dark = false;
};

int run_window(WindowCommand options) {
    if (options.scale > 0) options.window.scale = options.scale;
    if (options.dark) options.window.dark = true;
    const std::string trouble = window::open_window(options.window);
    return trouble.empty() ? kDone : refused({problem(trouble)}, kAnswerIsNo);
}

}  // namespace

bool is_before_a_display() {
    return std::getenv("DISPLAY") != nullptr || std::getenv("WAYLAND_DISPLAY") != nullptr;
}

int open_empty_window() {
    return run_window({});
}

void add_window_command(CLI::App& program, int& exit_status) {
    CLI::App* command = program.add_subcommand("window", "See, touch and probe a circuit");
    const auto options = std::make_shared<WindowCommand>();
    command->add_option("file", options->window.file, "A circuit, or a job to practise on")
        ->type_name("FILE");
    command
        ->add_option("--mode", options->window.mode, "What to begin with: practise, study, diagnose, author")
        ->type_name("MODE");
    command->add_option("--ui-scale", options->scale, "Size of text and lines; else what the desktop says")
        ->check(CLI::Range(0.75, 2.5))
        ->type_name("FACTOR");
    command->add_flag("--dark", options->dark, "Light letters on dark ground");
    command->add_option("--width", options->window.width, "In pixels")->check(CLI::Range(640, 8192));
    command->add_option("--height", options->window.height, "In pixels")->check(CLI::Range(400, 8192));
    command->add_option("--frames", options->window.frames, "Close after so many frames")
        ->check(CLI::Range(0, 1000000));
    command->add_option("--png", options->window.picture, "At the end, write a picture of the window")
        ->type_name("FILE.png");
    command
        ->add_option("--places", options->window.places,
                     "Keep in this file where everything with a name is, for programs that push buttons")
        ->type_name("FILE.json");
    command->callback([options, &exit_status] { exit_status = run_window(*options); });
}

}  // namespace halfsplit::cli
