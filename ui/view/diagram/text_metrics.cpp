#include "ui/view/diagram/text_metrics.h"

#include <array>
#include <cmath>
#include <sstream>

#include "engine/base/index.h"

namespace halfsplit::view::diagram {

namespace {

/// Advance widths of U+0020 to U+007E in thousandths of an em, read from the horizontal metrics (table hmtx)
/// of DejaVu Sans Condensed 2.37 by a script.
constexpr std::array<int, 95> kAdvance{
    // clang-format off
    286, 360, 414, 754, 572, 855, 702, 247, 351, 351, 450, 754, 286, 325, 286, 303,
    572, 572, 572, 572, 572, 572, 572, 572, 572, 572, 303, 303, 754, 754, 754, 478,
    900, 615, 617, 628, 693, 568, 518, 697, 677, 265, 265, 590, 501, 776, 673, 708,
    542, 708, 625, 571, 549, 659, 615, 890, 616, 549, 616, 351, 303, 351, 754, 450,
    450, 551, 571, 495, 571, 554, 316, 571, 570, 250, 250, 521, 250, 876, 570, 550,
    571, 571, 370, 469, 353, 570, 532, 736, 532, 532, 472, 572, 303, 572, 754,
    // clang-format on
};
/// What other letters are taken for: the widest of the Latin, Greek and Cyrillic ones in everyday use.
constexpr int kOtherAdvance = 900;

bool is_continuation(char letter) {
    return (static_cast<unsigned char>(letter) & 0xC0U) == 0x80U;
}

}  // namespace

double exact_width(std::string_view text) {
    int thousandths = 0;
    for (const char letter : text) {
        if (is_continuation(letter)) continue;
        const bool known = letter >= ' ' && letter <= '~';
        thousandths += known ? kAdvance.at(at(letter - ' ')) : kOtherAdvance;
    }
    return thousandths * kTextSize / 1000.0;
}

int text_width(std::string_view text) {
    return static_cast<int>(std::ceil(exact_width(text)));
}

std::vector<std::string> wrapped(const std::string& text, int width) {
    std::vector<std::string> lines;
    std::istringstream words(text);
    for (std::string word; words >> word;) {
        const bool fits = !lines.empty() && text_width(lines.back() + " " + word) <= width;
        if (fits)
            lines.back() += " " + word;
        else
            lines.push_back(word);
    }
    return lines;
}

}  // namespace halfsplit::view::diagram
