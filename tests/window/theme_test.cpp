#include "ui/window/frame/theme.h"

#include <catch2/catch.hpp>

namespace halfsplit {

using window::contrast;
using window::Theme;

TEST_CASE("Contrast is as WCAG 2.2 reckons it") {
    // Black on white is 21:1 by definition (WCAG 2.2, "contrast ratio"); #767676 on white is the well-known
    // limit case just above 4.5:1 (from memory).
    CHECK(contrast({0, 0, 0}, {255, 255, 255}) == Approx(21));
    CHECK(contrast({0x76, 0x76, 0x76}, {255, 255, 255}) == Approx(4.54).margin(0.01));
    CHECK(contrast({255, 255, 255}, {0x76, 0x76, 0x76}) == contrast({0x76, 0x76, 0x76}, {255, 255, 255}));
}

TEST_CASE("All letters can be read on what they stand on") {
    for (const Theme& theme : {window::light_theme(), window::dark_theme()}) {
        constexpr double kText = 4.5;  // WCAG 2.2, success criterion 1.4.3
        CHECK(contrast(theme.text, theme.drawer) >= kText);
        CHECK(contrast(theme.text, theme.field) >= kText);
        CHECK(contrast(theme.text, theme.field_near) >= kText);
        CHECK(contrast(theme.text, theme.note) >= kText);
        CHECK(contrast(theme.soft_text, theme.drawer) >= kText);
        CHECK(contrast(theme.soft_text, theme.field) >= kText);
        CHECK(contrast(theme.caution, theme.drawer) >= kText);
        CHECK(contrast(theme.caution, theme.note) >= kText);
        CHECK(contrast(theme.ink, theme.paper) >= kText);
        CHECK(contrast(window::on_paper({70, 70, 70}, theme), theme.paper) >= kText);
        CHECK(contrast(theme.paper, theme.mark) >= kText);  // letters of what is chosen
        constexpr double kGraphics = 3;                     // success criterion 1.4.11
        CHECK(contrast(theme.mark, theme.drawer) >= kGraphics);
        CHECK(contrast(theme.positive, theme.paper) >= kGraphics);
        CHECK(contrast(theme.negative, theme.paper) >= kGraphics);
        for (const window::Colour& channel : theme.channels)
            CHECK(contrast(channel, theme.paper) >= kGraphics);
    }
}

TEST_CASE("The palette of potentials grows lighter from the lowest to the highest") {
    double before = 0;
    for (int step = 0; step <= 20; ++step) {
        const double lightness = contrast(window::potential_colour(step / 20.0), {0, 0, 0});
        CHECK(lightness > before);
        before = lightness;
    }
}

}  // namespace halfsplit
