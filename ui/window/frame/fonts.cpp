#include "ui/window/frame/fonts.h"

#include <imgui.h>

#include <cmath>

extern "C" {
// Where the linker has put assets/fonts/DejaVuSansCondensed.ttf (typeface.S).
extern const unsigned char halfsplit_typeface_begin[];
extern const unsigned char halfsplit_typeface_end[];
}

namespace halfsplit::window {

namespace {

/// Latin with its accents, Greek for units, punctuation, arrows, the signs of mathematics that are used.
constexpr ImWchar kRanges[] = {0x20,   0x17F,  0x391,  0x3C9,  0x2010, 0x2044, 0x2070, 0x209C, 0x2122, 0x2126,
                               0x2190, 0x2195, 0x2200, 0x2265, 0x25A0, 0x25CF, 0x2713, 0x2717, 0};

ImFont* baked(ImFontAtlas& atlas, double size_px) {
    ImFontConfig config;
    config.FontDataOwnedByAtlas = false;
    config.OversampleH = 2;
    config.OversampleV = 1;
    config.PixelSnapH = true;
    // ImGui does not write to it, though it asks for a pointer that it could write through.
    auto* const data = const_cast<unsigned char*>(halfsplit_typeface_begin);
    const auto size = static_cast<int>(halfsplit_typeface_end - halfsplit_typeface_begin);
    return atlas.AddFontFromMemoryTTF(data, size, static_cast<float>(std::round(size_px)), &config, kRanges);
}

}  // namespace

Fonts add_fonts(ImFontAtlas& atlas, double scale) {
    atlas.Clear();
    atlas.Flags |= ImFontAtlasFlags_NoPowerOfTwoHeight;
    Fonts fonts;
    fonts.text = baked(atlas, 17 * scale);
    fonts.title = baked(atlas, 24 * scale);
    fonts.small = baked(atlas, 13);
    fonts.large = baked(atlas, 32);
    return fonts;
}

}  // namespace halfsplit::window
