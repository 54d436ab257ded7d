#include "ui/window/recorder/draw_chart.h"

#include <imgui.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "engine/base/number.h"
#include "ui/view/strip_text.h"
#include "ui/view/ticks.h"
#include "ui/window/frame/colours.h"
#include "ui/window/recorder/draw_line.h"
#include "ui/window/recorder/value_axis.h"

namespace halfsplit::window {

using instruments::Strip;

namespace {

// At 100 %.
constexpr double kLettersPx = 13;
constexpr double kLinePx = 2;
constexpr double kSwatchPx = 34;
constexpr double kTickEveryPx = 34;
constexpr double kTimeTickEveryPx = 90;

bool has(const Strip& strip, bool currents) {
    return std::ranges::any_of(strip.channels,
                               [&](const auto& channel) { return channel.is_current == currents; });
}

/// Draws in a chart's own coordinates.
class ChartPen {
  public:
    ChartPen(const Frame& frame, const ChartPlaces& places, const ChartView& view)
        : frame_(frame), places_(places), view_(view), list_(*ImGui::GetWindowDrawList()) {}

    ImDrawList& list() const { return list_; }
    const Frame& frame() const { return frame_; }
    const ScreenBox& plot() const { return places_.plot; }
    const ScreenBox& all() const { return places_.all; }
    const ChartView& view() const { return view_; }
    float x_px(double time_s) const {
        const double share = view_.share_at(time_s);
        return static_cast<float>(places_.plot.left + share * (places_.plot.right - places_.plot.left));
    }
    float y_px(const ValueAxis& axis, double value) const {
        return static_cast<float>(places_.plot.bottom -
                                  axis.share_of(value) * (places_.plot.bottom - places_.plot.top));
    }
    float letters_px() const { return frame_.px(kLettersPx); }
    float width_of(const std::string& text) const {
        return frame_.fonts.text->CalcTextSizeA(letters_px(), 1e6F, 0, text.c_str()).x;
    }
    void write(float left, float top, const std::string& text, Colour colour) const {
        list_.AddText(frame_.fonts.text, letters_px(), {left, top}, packed(colour), text.c_str());
    }
    void line(ImVec2 from, ImVec2 to, Colour colour, double width) const {
        list_.AddLine(from, to, packed(colour), std::max(1.0F, frame_.px(width)));
    }

  private:
    const Frame& frame_;
    const ChartPlaces& places_;
    const ChartView& view_;
    ImDrawList& list_;
};

std::string tick_text(double value, double step) {
    const double rounded = step * std::round(value / step);
    constexpr double kFine = 1e9;
    return number_text(std::round(rounded * kFine) / kFine + 0.0);
}

void draw_value_axis(const ChartPen& pen, const ValueAxis& axis, bool on_the_right, bool has_grid) {
    const Theme& theme = pen.frame().theme;
    const ScreenBox& plot = pen.plot();
    const float gap = pen.frame().px(6);
    const int count = static_cast<int>(std::lround((axis.most - axis.least) / axis.step));
    for (int i = 0; i <= count; ++i) {
        const double value = axis.least + i * axis.step;
        const float y = pen.y_px(axis, value);
        if (has_grid) pen.line({plot.left, y}, {plot.right, y}, mixed(theme.paper, theme.ink, 0.18), 1);
        const std::string text = tick_text(value, axis.step);
        pen.write(on_the_right ? plot.right + gap : plot.left - gap - pen.width_of(text),
                  y - pen.letters_px() / 2, text, theme.ink);
    }
    const char* unit = on_the_right ? "A" : "V";
    pen.write(on_the_right ? plot.right + gap : plot.left - gap - pen.width_of(unit),
              plot.top - pen.letters_px() * 1.8F, unit, theme.ink);
}

void draw_time_axis(const ChartPen& pen) {
    const Theme& theme = pen.frame().theme;
    const ScreenBox& plot = pen.plot();
    const ChartView& view = pen.view();
    const int steps =
        std::max(2, static_cast<int>((plot.right - plot.left) / pen.frame().px(kTimeTickEveryPx)));
    const double step = view::tick_step(view.span_s(), steps);
    const float unit_left = plot.right - pen.width_of("s");
    for (double i = std::ceil(std::max(0.0, view.from_s()) / step - 1e-6); i * step <= view.to_s(); ++i) {
        const float x = pen.x_px(i * step);
        pen.line({x, plot.top}, {x, plot.bottom}, mixed(theme.paper, theme.ink, 0.18), 1);
        const std::string text = tick_text(i * step, step);
        const float left = x - pen.width_of(text) / 2;
        if (left + pen.width_of(text) + pen.frame().px(6) < unit_left && left > pen.all().left)
            pen.write(left, plot.bottom + pen.frame().px(3), text, theme.ink);
    }
    pen.write(unit_left, plot.bottom + pen.frame().px(3), "s", theme.ink);
}

/// Of a pixel's width of samples the first, the least, the most and the last.
class Gathered {
  public:
    explicit Gathered(std::vector<ImVec2>& points) : points_(points) {}
    void add(float x, float y) {
        if (count_ > 0 && std::floor(x) != std::floor(x_)) flush();
        if (count_ == 0) {
            least_ = most_ = y;
            points_.push_back({x, y});
        }
        least_ = std::min(least_, y);
        most_ = std::max(most_, y);
        x_ = x;
        last_ = y;
        ++count_;
    }
    void flush() {
        if (count_ > 1) {
            if (count_ > 2) {
                points_.push_back({x_, least_});
                points_.push_back({x_, most_});
            }
            points_.push_back({x_, last_});
        }
        count_ = 0;
    }

  private:
    std::vector<ImVec2>& points_;
    float x_ = 0;
    float least_ = 0;
    float most_ = 0;
    float last_ = 0;
    int count_ = 0;
};

void draw_channel(const ChartPen& pen, const Strip& strip, std::size_t channel, const ValueAxis& axis) {
    std::vector<ImVec2> points;
    Gathered gathered(points);
    const auto draw = [&] {
        gathered.flush();
        draw_line(pen.list(), points, pattern_of(channel), pen.frame().scale,
                  packed(pen.frame().theme.channels[channel]), pen.frame().px(kLinePx));
        points.clear();
    };
    std::size_t i = instruments::first_from(strip, pen.view().from_s());
    if (i > 0) --i;
    for (; i < strip.time_s.size(); ++i) {
        const double value = strip.values[channel][i];
        if (std::isnan(value)) {
            draw();
            continue;
        }
        gathered.add(pen.x_px(strip.time_s[i]), pen.y_px(axis, value));
        if (strip.time_s[i] > pen.view().to_s()) break;
    }
    draw();
}

void draw_cursor(const ChartPen& pen, std::size_t which) {
    const Theme& theme = pen.frame().theme;
    const ScreenBox& plot = pen.plot();
    const double share = pen.view().share_at(pen.view().cursor_s(which));
    if (share < -1e-9 || share > 1 + 1e-9) return;
    const float x = std::round(pen.x_px(pen.view().cursor_s(which)));
    static const LinePattern kDashes{7, 4};
    const std::array line{ImVec2{x, plot.top}, ImVec2{x, plot.bottom}};
    draw_line(pen.list(), line, which == 0 ? LinePattern() : kDashes, pen.frame().scale, packed(theme.mark),
              pen.frame().px(1.5));
    const std::string name = which == 0 ? "A" : "B";
    const float half = pen.frame().px(9);
    const float height = pen.letters_px() + pen.frame().px(3);
    // A hangs from the top, B stands at the bottom: they do not cover each other.
    const float top = which == 0 ? plot.top : plot.bottom - height;
    pen.list().AddRectFilled({x - half, top}, {x + half, top + height}, packed(theme.mark),
                             pen.frame().px(2));
    pen.write(x - pen.width_of(name) / 2, top + pen.frame().px(1), name, theme.paper);
    pen.frame().landmarks->put("cursor:" + name, {x - half, top, x + half, top + height});
}

/// Which channel is which, and what lies between the cursors.
void draw_legend(const ChartPen& pen, const Strip& strip) {
    const Theme& theme = pen.frame().theme;
    const float gap = pen.frame().px(6);
    const float top = pen.all().top + gap;
    const float middle = top + pen.letters_px() / 2;
    const double between_s = pen.view().cursor_s(1) - pen.view().cursor_s(0);
    const std::string rate = view::rate_text(between_s);
    const std::string between =
        "B − A " + view::seconds_text(between_s) + (rate.empty() ? "" : "   1/t " + rate);
    const float between_left = pen.plot().right - pen.width_of(between);
    float left = pen.plot().left;
    for (std::size_t i = 0; i < strip.channels.size(); ++i) {
        const std::string text = std::to_string(i + 1) + "  " + view::channel_text(strip.channels[i]) +
                                 (strip.channels[i].is_current ? " (A)" : " (V)");
        const float swatch = pen.frame().px(kSwatchPx);
        const float end = left + swatch + gap + pen.width_of(text);
        if (end + gap > between_left) break;
        const std::array line{ImVec2{left, middle}, ImVec2{left + swatch, middle}};
        draw_line(pen.list(), line, pattern_of(i), pen.frame().scale, packed(theme.channels[i]),
                  pen.frame().px(kLinePx + 0.5));
        pen.write(left + swatch + gap, top, text, theme.ink);
        left = end + 3 * gap;
    }
    if (between_left > pen.plot().left) pen.write(between_left, top, between, theme.ink);
}

}  // namespace

ChartPlaces chart_places(const Frame& frame, const ScreenBox& all, const Strip& strip) {
    const float letters = frame.px(kLettersPx);
    const float side = frame.px(44);
    ChartPlaces places{all, all};
    places.plot.left += side;
    places.plot.right -= has(strip, true) ? side : frame.px(12);
    places.plot.top += 2.6F * letters;
    places.plot.bottom -= 1.7F * letters;
    places.plot.right = std::max(places.plot.right, places.plot.left + 10);
    places.plot.bottom = std::max(places.plot.bottom, places.plot.top + 10);
    return places;
}

void draw_chart(const Frame& frame, const ChartPlaces& places, const Strip& strip, const ChartView& view) {
    const ChartPen pen(frame, places, view);
    const int steps =
        std::max(2, static_cast<int>((places.plot.bottom - places.plot.top) / frame.px(kTickEveryPx)));
    const std::array axes{axis_for(strip, view, false, steps), axis_for(strip, view, true, steps)};
    pen.list().PushClipRect({places.all.left, places.all.top}, {places.all.right, places.all.bottom}, true);
    draw_time_axis(pen);
    const bool has_volts = has(strip, false);
    if (has_volts) draw_value_axis(pen, axes[0], false, true);
    if (has(strip, true)) draw_value_axis(pen, axes[1], true, !has_volts);
    draw_legend(pen, strip);
    pen.list().PushClipRect({places.plot.left, places.plot.top}, {places.plot.right, places.plot.bottom},
                            true);
    for (std::size_t i = 0; i < strip.channels.size(); ++i)
        draw_channel(pen, strip, i, axes[strip.channels[i].is_current ? 1 : 0]);
    pen.list().PopClipRect();
    pen.list().AddRect({places.plot.left, places.plot.top}, {places.plot.right, places.plot.bottom},
                       packed(frame.theme.ink));
    for (std::size_t i = 0; i < 2; ++i) draw_cursor(pen, i);
    pen.list().PopClipRect();
}

}  // namespace halfsplit::window
