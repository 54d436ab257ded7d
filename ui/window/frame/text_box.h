#pragma once

#include <string>
#include <vector>

#include "ui/window/frame/frame.h"

namespace halfsplit::window {

/// A paragraph to type in. It is wrapped at the edge whenever nobody types; breaks count as spaces.
void write_in(const Frame& frame, const std::string& name, std::string& text);

/// Paragraphs, one a box, and an empty box for one more. One that is emptied goes.
void write_several(const Frame& frame, const std::string& name, std::vector<std::string>& texts);

}  // namespace halfsplit::window
