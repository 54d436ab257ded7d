#pragma once

#include <string_view>

#include "ui/view/diagram/canvas.h"

namespace halfsplit::view::diagram {

/// How a colour after IEC 60757 is drawn on white paper; grey for letters that are none of it.
Colour wire_colour(std::string_view letters);

}  // namespace halfsplit::view::diagram
