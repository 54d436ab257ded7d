#pragma once

#include <array>

#include "ui/view/diagram/canvas.h"

struct ImGuiStyle;

namespace halfsplit::window {

using view::diagram::Colour;

/// Colours by what they mean. Whatever a colour says is said in words or by a shape as well.
struct Theme {
    bool dark = false;
    Colour paper;       ///< what the diagram is drawn on
    Colour ink;         ///< its lines and letters
    Colour desk;        ///< around the paper
    Colour drawer;      ///< what stands in the trolley is on this
    Colour field;       ///< what can be typed in or pushed
    Colour field_near;  ///< the same with the mouse on it
    Colour text;
    Colour soft_text;
    Colour mark;      ///< what is chosen, has the keyboard, or is to be looked at
    Colour caution;   ///< letters of cautions and errors
    Colour positive;  ///< the lead that is not on ground
    Colour negative;  ///< the lead on ground or against which is measured
    Colour note;      ///< behind numbers that are laid over the diagram
    Colour glow;      ///< light, heat and sound of what works
    /// A recorder's channels: after the palette for all kinds of colour vision by Okabe and Ito (2008; from
    /// memory), some made darker for light paper or lighter for dark.
    std::array<Colour, 4> channels;
};

Theme light_theme();
Theme dark_theme();

/// WCAG 2.2: (L1 + 0.05) / (L2 + 0.05), L the relative luminance of the lighter and the darker one.
double contrast(Colour a, Colour b);

/// Blends from one to the other.
Colour mixed(Colour from, Colour to, double share);

/// What the diagram calls ink and paper, and greys between them, in the theme's colours; what has a hue
/// stays.
Colour on_paper(Colour colour, const Theme& theme);

/// How high a share of the largest potential stands, 0 to 1: a palette whose lightness rises evenly, readable
/// without telling red from green (cividis, Nunez, Anderton & Renslow, PLOS ONE 13(7), 2018; nine of its
/// values).
Colour potential_colour(double share);

/// All sizes and colours of ImGui's own widgets. `scale` 1 is 100 %.
void dress(ImGuiStyle& style, const Theme& theme, double scale);

}  // namespace halfsplit::window
