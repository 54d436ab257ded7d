#pragma once

namespace CLI {
class App;
}

namespace halfsplit::cli {

/// Only in programs that are built with the window (HALFSPLIT_WINDOW).
void add_window_command(CLI::App& program, int& exit_status);

/// Whether somebody sits before a display, as its variables say.
bool is_before_a_display();
/// The exit status.
int open_empty_window();

}  // namespace halfsplit::cli
