#include "ui/view/plot.h"

#include <algorithm>
#include <cmath>

#include "engine/base/number.h"
#include "ui/view/html_page.h"
#include "ui/view/table.h"
#include "ui/view/ticks.h"

namespace halfsplit::view {

using xml::WrittenElement;

namespace {

// Millimetres on paper.
constexpr double kWidthMm = 160;
constexpr double kHeightMm = 62;
constexpr double kLeftMm = 14;
constexpr double kBottomMm = 11;
constexpr double kTopMm = 4;
constexpr double kRightMm = 4;
constexpr double kDotMm = 1.1;
constexpr int kTicks = 5;
constexpr const char* kInk = "#141414";
constexpr const char* kPale = "#bbbbbb";

std::string mm(double value) {
    return fixed(value, 2);
}

WrittenElement text_at(double x, double y, const std::string& anchor, const std::string& text) {
    return {"text", {{"x", mm(x)}, {"y", mm(y)}, {"text-anchor", anchor}}, text};
}

WrittenElement line_from(double x1, double y1, double x2, double y2, const char* colour) {
    return {"line",
            {{"x1", mm(x1)},
             {"y1", mm(y1)},
             {"x2", mm(x2)},
             {"y2", mm(y2)},
             {"stroke", colour},
             {"stroke-width", "0.3"}}};
}

WrittenElement picture(double width_mm, double height_mm, const std::string& caption) {
    return {"svg",
            {{"xmlns", "http://www.w3.org/2000/svg"},
             {"viewBox", "0 0 " + mm(width_mm) + " " + mm(height_mm)},
             {"role", "img"},
             {"aria-label", caption}}};
}

WrittenElement with_caption(WrittenElement svg, const std::string& caption) {
    WrittenElement figure = holder("figure");
    figure.add(std::move(svg));
    figure.add(element("figcaption", "", caption));
    return figure;
}

class Axes {
  public:
    explicit Axes(const Plot& plot) {
        double most_x = 0;
        double most_y = 0;
        for (const PlotPoint& point : plot.points) {
            most_x = std::max(most_x, point.x);
            most_y = std::max(most_y, point.y);
        }
        step_x_ = tick_step(most_x, kTicks);
        step_y_ = tick_step(most_y, kTicks);
        most_x_ = std::max(1.0, std::ceil(most_x / step_x_)) * step_x_;
        most_y_ = std::max(1.0, std::ceil(most_y / step_y_)) * step_y_;
    }
    double x(double value) const { return kLeftMm + value / most_x_ * (kWidthMm - kLeftMm - kRightMm); }
    double y(double value) const {
        return kHeightMm - kBottomMm - value / most_y_ * (kHeightMm - kBottomMm - kTopMm);
    }
    double most_x() const { return most_x_; }
    double most_y() const { return most_y_; }

    void draw(WrittenElement& svg, const Plot& plot) const {
        for (double at = 0; at <= most_x_ * 1.0001; at += step_x_) {
            svg.add(line_from(x(at), y(0), x(at), y(0) + 1, kInk));
            svg.add(text_at(x(at), y(0) + 4.2, "middle", number_text(std::round(at * 1e6) / 1e6)));
        }
        for (double at = 0; at <= most_y_ * 1.0001; at += step_y_) {
            svg.add(line_from(x(0), y(at), x(most_x_), y(at), at == 0 ? kInk : kPale));
            svg.add(text_at(x(0) - 1.2, y(at) + 1.1, "end", number_text(std::round(at * 1e6) / 1e6)));
        }
        svg.add(text_at(x(most_x_), kHeightMm - 2, "end", plot.x_title));
        svg.add(text_at(x(0) + 1, kTopMm - 0.8, "start", plot.y_title));
    }

  private:
    double step_x_ = 1;
    double step_y_ = 1;
    double most_x_ = 1;
    double most_y_ = 1;
};

WrittenElement staircase(const Axes& axes, const std::vector<PlotPoint>& points) {
    std::string way;
    double last_y = 0;
    for (const PlotPoint& point : points) {
        if (way.empty())
            way = "M" + mm(axes.x(point.x)) + " " + mm(axes.y(point.y));
        else
            way += " L" + mm(axes.x(point.x)) + " " + mm(axes.y(last_y)) + " L" + mm(axes.x(point.x)) + " " +
                   mm(axes.y(point.y));
        last_y = point.y;
    }
    return {"path", {{"d", way}, {"fill", "none"}, {"stroke", kInk}, {"stroke-width", "0.5"}}};
}

}  // namespace

WrittenElement figure_of(const Plot& plot) {
    WrittenElement svg = picture(kWidthMm, kHeightMm, plot.caption);
    const Axes axes(plot);
    axes.draw(svg, plot);
    if (plot.has_diagonal) {
        const double end = std::min(axes.most_x(), axes.most_y());
        svg.add(line_from(axes.x(0), axes.y(0), axes.x(end), axes.y(end), kInk));
    }
    if (plot.is_staircase) svg.add(staircase(axes, plot.points));
    for (const PlotPoint& point : plot.points)
        svg.add({"circle",
                 {{"cx", mm(axes.x(point.x))},
                  {"cy", mm(axes.y(point.y))},
                  {"r", mm(kDotMm)},
                  {"fill", point.is_hollow ? "#ffffff" : kInk},
                  {"stroke", kInk},
                  {"stroke-width", "0.4"}}});
    return with_caption(std::move(svg), plot.caption);
}

WrittenElement bars_of(const std::string& caption, const std::vector<Bar>& bars) {
    constexpr double kRowMm = 6;
    constexpr double kLabelMm = 52;
    constexpr double kEndMm = 30;
    WrittenElement svg = picture(kWidthMm, kRowMm * static_cast<double>(bars.size()) + 2, caption);
    double y = 1;
    for (const Bar& bar : bars) {
        const double length = (kWidthMm - kLabelMm - kEndMm) * std::clamp(bar.share, 0.0, 1.0);
        svg.add(text_at(kLabelMm - 1.5, y + 3.6, "end", bar.label));
        svg.add({"rect",
                 {{"x", mm(kLabelMm)},
                  {"y", mm(y + 0.8)},
                  {"width", mm(length)},
                  {"height", mm(kRowMm - 2)},
                  {"fill", "#777777"}}});
        svg.add(line_from(kLabelMm, y, kLabelMm, y + kRowMm, kInk));
        svg.add(text_at(kLabelMm + length + 1.5, y + 3.6, "start", bar.end));
        y += kRowMm;
    }
    return with_caption(std::move(svg), caption);
}

}  // namespace halfsplit::view
