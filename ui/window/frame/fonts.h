#pragma once

struct ImFont;
struct ImFontAtlas;

namespace halfsplit::window {

/// The one typeface (DejaVu Sans Condensed, in the program itself) in the sizes that are needed.
struct Fonts {
    ImFont* text = nullptr;   ///< drawers
    ImFont* title = nullptr;  ///< headings, a meter's display
    ImFont* small = nullptr;  ///< letters of a diagram, by their size on the screen
    ImFont* large = nullptr;
};

/// Bakes them for a scale (1 is 100 %). The atlas keeps no reference to anything else.
Fonts add_fonts(ImFontAtlas& atlas, double scale);

}  // namespace halfsplit::window
