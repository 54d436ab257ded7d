#include "ui/window/frame/theme.h"

#include <imgui.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/base/index.h"
#include "ui/window/frame/colours.h"

namespace halfsplit::window {

namespace {

/// sRGB's transfer curve (IEC 61966-2-1), as WCAG's definition of relative luminance has it.
double linear(int part) {
    const double value = part / 255.0;
    return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
}

double luminance(Colour colour) {
    return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

void dress_sizes(ImGuiStyle& style, double scale) {
    style = ImGuiStyle();
    style.WindowRounding = 0;
    style.FrameRounding = 2;
    style.GrabRounding = 2;
    style.ScrollbarRounding = 2;
    style.WindowBorderSize = 0;
    style.FrameBorderSize = 1;
    style.PopupBorderSize = 1;
    style.FramePadding = {7, 4};
    style.ItemSpacing = {7, 5};
    style.WindowPadding = {9, 8};
    style.ScrollbarSize = 13;
    style.AntiAliasedLinesUseTex = true;
    style.ScaleAllSizes(static_cast<float>(scale));
}

}  // namespace

Theme light_theme() {
    return {.dark = false,
            .paper = {253, 253, 250},
            .ink = {20, 20, 20},
            .desk = {201, 205, 203},
            .drawer = {238, 239, 235},
            .field = {252, 252, 250},
            .field_near = {224, 230, 226},
            .text = {24, 26, 25},
            .soft_text = {82, 86, 84},
            .mark = {0, 95, 115},
            .caution = {150, 40, 0},
            .positive = {176, 16, 32},
            .negative = {20, 20, 20},
            .note = {255, 255, 255},
            .glow = {255, 196, 40},
            .channels = {{{0, 114, 178}, {213, 94, 0}, {0, 130, 95}, {170, 80, 135}}}};
}

Theme dark_theme() {
    return {.dark = true,
            .paper = {30, 32, 33},
            .ink = {226, 228, 224},
            .desk = {16, 17, 18},
            .drawer = {42, 45, 46},
            .field = {26, 28, 29},
            .field_near = {62, 68, 68},
            .text = {232, 234, 230},
            .soft_text = {172, 178, 174},
            .mark = {122, 206, 214},
            .caution = {255, 166, 118},
            .positive = {255, 120, 120},
            .negative = {226, 228, 224},
            .note = {12, 13, 14},
            .glow = {255, 206, 80},
            .channels = {{{86, 180, 233}, {230, 159, 0}, {0, 178, 132}, {214, 140, 180}}}};
}

double contrast(Colour a, Colour b) {
    const auto [darker, lighter] = std::minmax({luminance(a), luminance(b)});
    return (lighter + 0.05) / (darker + 0.05);
}

Colour mixed(Colour from, Colour to, double share) {
    const auto blend = [share](int a, int b) { return static_cast<int>(std::lround(a + share * (b - a))); };
    return {blend(from.red, to.red), blend(from.green, to.green), blend(from.blue, to.blue)};
}

Colour on_paper(Colour colour, const Theme& theme) {
    if (colour.red != colour.green || colour.green != colour.blue) return colour;
    const double whiteness = (colour.red - view::diagram::kInk.red) /
                             static_cast<double>(view::diagram::kPaper.red - view::diagram::kInk.red);
    return mixed(theme.ink, theme.paper, std::clamp(whiteness, 0.0, 1.0));
}

Colour potential_colour(double share) {
    static constexpr std::array<Colour, 9> kSteps{{{0, 34, 78},
                                                   {24, 53, 110},
                                                   {63, 72, 109},
                                                   {94, 93, 110},
                                                   {123, 115, 119},
                                                   {155, 138, 119},
                                                   {188, 163, 108},
                                                   {223, 190, 85},
                                                   {254, 232, 56}}};
    const double place = std::clamp(share, 0.0, 1.0) * (kSteps.size() - 1);
    const auto below = std::min(static_cast<int>(place), static_cast<int>(kSteps.size()) - 2);
    return mixed(kSteps[at(below)], kSteps[at(below + 1)], place - below);
}

void dress(ImGuiStyle& style, const Theme& theme, double scale) {
    dress_sizes(style, scale);
    const auto set = [&style](int what, Colour colour, double opacity = 1) {
        style.Colors[what] = ImGui::ColorConvertU32ToFloat4(packed(colour, opacity));
    };
    for (int what = 0; what < ImGuiCol_COUNT; ++what) set(what, theme.drawer);
    set(ImGuiCol_Text, theme.text);
    set(ImGuiCol_TextDisabled, theme.soft_text);
    set(ImGuiCol_PopupBg, theme.field);
    set(ImGuiCol_Border, mixed(theme.drawer, theme.text, 0.35));
    set(ImGuiCol_BorderShadow, theme.drawer, 0);
    set(ImGuiCol_FrameBg, theme.field);
    set(ImGuiCol_FrameBgHovered, theme.field_near);
    set(ImGuiCol_FrameBgActive, theme.field_near);
    set(ImGuiCol_Button, theme.field);
    set(ImGuiCol_ButtonHovered, theme.field_near);
    set(ImGuiCol_ButtonActive, mixed(theme.field, theme.mark, 0.4));
    set(ImGuiCol_Header, mixed(theme.drawer, theme.text, 0.12));
    set(ImGuiCol_HeaderHovered, theme.field_near);
    set(ImGuiCol_HeaderActive, theme.field_near);
    set(ImGuiCol_CheckMark, theme.mark);
    set(ImGuiCol_SliderGrab, theme.mark);
    set(ImGuiCol_SliderGrabActive, theme.mark);
    set(ImGuiCol_ScrollbarBg, theme.drawer);
    set(ImGuiCol_ScrollbarGrab, mixed(theme.drawer, theme.text, 0.45));
    set(ImGuiCol_ScrollbarGrabHovered, mixed(theme.drawer, theme.text, 0.6));
    set(ImGuiCol_ScrollbarGrabActive, mixed(theme.drawer, theme.text, 0.7));
    set(ImGuiCol_Separator, mixed(theme.drawer, theme.text, 0.3));
    set(ImGuiCol_TableHeaderBg, mixed(theme.drawer, theme.text, 0.12));
    set(ImGuiCol_TableBorderStrong, mixed(theme.drawer, theme.text, 0.35));
    set(ImGuiCol_TableBorderLight, mixed(theme.drawer, theme.text, 0.2));
    set(ImGuiCol_TableRowBg, theme.drawer, 0);
    set(ImGuiCol_TableRowBgAlt, theme.text, 0.05);
    set(ImGuiCol_TextSelectedBg, mixed(theme.field, theme.mark, 0.35));
    set(ImGuiCol_NavHighlight, theme.mark);
    set(ImGuiCol_PlotLines, theme.text);
    set(ImGuiCol_PlotHistogram, theme.mark);
    set(ImGuiCol_ModalWindowDimBg, theme.desk, 0.6);
}

}  // namespace halfsplit::window
