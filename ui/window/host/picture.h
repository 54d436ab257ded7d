#pragma once

#include <string>

namespace halfsplit::window {

/// What is in the frame buffer, as a PNG. False where it cannot be written.
bool write_picture(const std::string& path, int width, int height);

}  // namespace halfsplit::window
