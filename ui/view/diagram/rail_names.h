#pragma once

#include <string>
#include <vector>

#include "ui/view/diagram/geometry.h"

namespace halfsplit::view::diagram {

/// A splice's rail that wants its name beside it.
struct RailName {
    std::string splice;
    std::string see;  ///< other bands
    int left = 0;
    int right = 0;
    int y = 0;
};

/// Adds a label for each, where it touches no line, no symbol and no other text: above the rail if there is
/// room between two lines, else as near to it as there is.
void name_rails(Diagram& diagram, const std::vector<RailName>& names);

}  // namespace halfsplit::view::diagram
