#pragma once

namespace CLI {
class App;
}

namespace halfsplit::cli {

/// Only in programs that are built with the window (HALFSPLIT_WINDOW).
void add_window_command(CLI::App& program, int& exit_status);

}  // namespace halfsplit::cli
