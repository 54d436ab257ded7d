#include "ui/window/paper/screen_canvas.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "ui/view/diagram/text_metrics.h"
#include "ui/window/frame/colours.h"

namespace halfsplit::window {

using view::diagram::Colour;
using view::diagram::Pen;
using view::diagram::Place;

namespace {

/// Letters smaller than this cannot be read: leaving them out costs nobody anything.
constexpr double kLeastLettersPx = 3.5;
/// Height of the font over its em: ascent and descent of DejaVu, 0.928 + 0.236.
constexpr double kHeightPerEm = 1.164;

}  // namespace

ImU32 ScreenCanvas::colour(Colour colour) const {
    return packed(on_paper(colour, frame_.theme));
}

bool ScreenCanvas::is_out_of_sight(const std::vector<ImVec2>& points) const {
    const ScreenBox& screen = viewport_.screen();
    constexpr float kWidestPx = 50;
    const auto all = [&](const auto& beyond) { return std::ranges::all_of(points, beyond); };
    return all([&](const ImVec2& point) { return point.x < screen.left - kWidestPx; }) ||
           all([&](const ImVec2& point) { return point.x > screen.right + kWidestPx; }) ||
           all([&](const ImVec2& point) { return point.y < screen.top - kWidestPx; }) ||
           all([&](const ImVec2& point) { return point.y > screen.bottom + kWidestPx; });
}

float ScreenCanvas::stroke_px(double width) const {
    return std::max(1.0F, static_cast<float>(width * viewport_.px_per_unit()));
}

void ScreenCanvas::dashed(const std::vector<ImVec2>& points, double dash, ImU32 colour, float width_px) {
    const auto length = std::max(2.0F, static_cast<float>(dash * viewport_.px_per_unit()));
    float done = 0;
    for (std::size_t i = 1; i < points.size(); ++i) {
        const ImVec2 from = points[i - 1];
        const float dx = points[i].x - from.x;
        const float dy = points[i].y - from.y;
        const float whole = std::hypot(dx, dy);
        float along = 0;
        while (along < whole) {
            const float place = std::fmod(done + along, 2 * length);
            const float step =
                std::min((place < length ? length : 2 * length) - place + 0.01F, whole - along);
            if (place < length)
                list_.AddLine({from.x + dx * along / whole, from.y + dy * along / whole},
                              {from.x + dx * (along + step) / whole, from.y + dy * (along + step) / whole},
                              colour, width_px);
            along += step;
        }
        done += whole;
    }
}

void ScreenCanvas::polyline(const std::vector<Place>& places, const Pen& pen) {
    std::vector<ImVec2> points;
    points.reserve(places.size());
    for (const Place& place : places) points.push_back(on_screen(place));
    if (is_out_of_sight(points)) return;
    if (pen.dash > 0)
        dashed(points, pen.dash, colour(pen.colour), stroke_px(pen.width));
    else
        list_.AddPolyline(points.data(), static_cast<int>(points.size()), colour(pen.colour), 0,
                          stroke_px(pen.width));
}

void ScreenCanvas::polygon(const std::vector<Place>& places, Colour fill) {
    std::vector<ImVec2> points;
    points.reserve(places.size());
    for (const Place& place : places) points.push_back(on_screen(place));
    if (is_out_of_sight(points)) return;
    list_.AddConvexPolyFilled(points.data(), static_cast<int>(points.size()), colour(fill));
}

void ScreenCanvas::rectangle(Place left_top, Place right_bottom, const Pen& pen) {
    polyline({left_top, {right_bottom.x, left_top.y}, right_bottom, {left_top.x, right_bottom.y}, left_top},
             pen);
}

void ScreenCanvas::circle(Place centre, double radius, const Pen& pen) {
    list_.AddCircle(on_screen(centre), static_cast<float>(radius * viewport_.px_per_unit()),
                    colour(pen.colour), 0, stroke_px(pen.width));
}

void ScreenCanvas::disc(Place centre, double radius, Colour fill) {
    list_.AddCircleFilled(on_screen(centre), static_cast<float>(radius * viewport_.px_per_unit()),
                          colour(fill));
}

void ScreenCanvas::arc(Place centre, double radius, double from_deg, double to_deg, const Pen& pen) {
    const auto radians = [](double degrees) { return static_cast<float>(degrees * std::numbers::pi / 180); };
    list_.PathArcTo(on_screen(centre), static_cast<float>(radius * viewport_.px_per_unit()),
                    radians(from_deg), radians(to_deg));
    list_.PathStroke(colour(pen.colour), 0, stroke_px(pen.width));
}

void ScreenCanvas::text(Place at, const std::string& line, double, double size, Colour colour_of_text) {
    const double em_px = view::diagram::kTextSize * size * viewport_.px_per_unit();
    if (em_px < kLeastLettersPx) return;
    const auto height_px = static_cast<float>(em_px * kHeightPerEm);
    ImFont* font = height_px > 18 ? frame_.fonts.large : frame_.fonts.small;
    const float ascent_px = font->Ascent * height_px / font->FontSize;
    const ImVec2 base = on_screen(at);
    if (base.y < viewport_.screen().top - height_px || base.y > viewport_.screen().bottom + height_px) return;
    list_.AddText(font, height_px, {base.x, base.y - ascent_px}, colour(colour_of_text), line.c_str());
}

void ScreenCanvas::clip(const view::diagram::Box& box) {
    list_.PushClipRect({viewport_.x_px(box.left), viewport_.y_px(box.top)},
                       {viewport_.x_px(box.right), viewport_.y_px(box.bottom)}, true);
}

void ScreenCanvas::unclip() {
    list_.PopClipRect();
}

}  // namespace halfsplit::window
