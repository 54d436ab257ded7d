#pragma once

#include <optional>
#include <string>

namespace halfsplit::window {

struct WindowOptions {
    std::string file;  ///< to open; "": nothing
    std::string mode;  ///< to begin with; "": the first that the file is for
    std::optional<double> scale;
    std::optional<bool> dark;
    int width = 1600;
    int height = 1000;
    int frames = 0;       ///< close after so many; 0: when somebody closes it
    std::string picture;  ///< PNG of the last frame
    std::string places;   ///< JSON of where everything with a name is, whenever that has changed
};

/// Opens the window and comes back when it is closed. A message where there is no display to open it on.
std::string open_window(const WindowOptions& options);

}  // namespace halfsplit::window
