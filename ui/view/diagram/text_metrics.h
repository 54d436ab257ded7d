#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::view::diagram {

// All lengths of a diagram are in grid units, two to a millimetre on paper.
inline constexpr int kUnitsPerMm = 2;

/// Size of the font (its em), in grid units: 2.6 mm. Its capitals are 0.73 em tall (DejaVu): 1.9 mm.
inline constexpr double kTextSize = 5.2;
/// From the top of a line's box to its baseline: capitals, and accents above them.
inline constexpr double kTextAscent = 4.6;
/// What a line of text takes, descenders and the space to the next line with it.
inline constexpr int kLineHeight = 6;
/// The font the widths are of. Whoever draws with another one squeezes the text into its box.
inline constexpr std::string_view kFontFamily = "DejaVu Sans Condensed";

/// Width of a line of UTF-8 text in grid units.
double exact_width(std::string_view text);
/// The same, rounded up.
int text_width(std::string_view text);

/// Lines no wider than `width`, broken at spaces; a single word may be wider.
std::vector<std::string> wrapped(const std::string& text, int width);

}  // namespace halfsplit::view::diagram
