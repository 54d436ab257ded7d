#include "ui/view/diagram/svg_canvas.h"

#include <array>
#include <charconv>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <utility>

#include "ui/view/diagram/text_metrics.h"

namespace halfsplit::view::diagram {

namespace {

using Attributes = std::vector<std::pair<std::string, std::string>>;

/// Hundredths are enough: 5 micrometres on paper.
std::string number(double value) {
    std::array<char, 64> text{};
    const double rounded = std::round(value * 100) / 100 + 0.0;  // no "-0"
    const auto end = std::to_chars(text.data(), text.data() + text.size(), rounded);
    return {text.data(), end.ptr};
}

std::string hex(Colour colour) {
    std::string text = "#";
    for (const int part : {colour.red, colour.green, colour.blue})
        for (const int digit : {part / 16, part % 16}) text += "0123456789abcdef"[digit];
    return text;
}

std::string list_of(const std::vector<Place>& places) {
    std::string text;
    for (const Place& place : places)
        text += (text.empty() ? "" : " ") + number(place.x) + "," + number(place.y);
    return text;
}

Attributes stroked(Attributes attributes, const Pen& pen) {
    attributes.insert(attributes.end(),
                      {{"fill", "none"}, {"stroke", hex(pen.colour)}, {"stroke-width", number(pen.width)}});
    if (pen.dash > 0) attributes.emplace_back("stroke-dasharray", number(pen.dash));
    return attributes;
}

}  // namespace

SvgCanvas::SvgCanvas(const Box& bounds, const std::string& title, double scale) {
    const double width_mm = scale * bounds.width() / kUnitsPerMm;
    const double height_mm = scale * bounds.height() / kUnitsPerMm;
    xml::WrittenElement root{
        "svg",
        {{"xmlns", "http://www.w3.org/2000/svg"},
         {"width", number(width_mm) + "mm"},
         {"height", number(height_mm) + "mm"},
         {"viewBox", number(bounds.left) + " " + number(bounds.top) + " " + number(bounds.width()) + " " +
                         number(bounds.height())},
         {"font-family", "'" + std::string(kFontFamily) + "', 'Arial Narrow', sans-serif"},
         {"stroke-linejoin", "round"}}};
    root.add({"title", {}, title});
    open_.push_back(std::move(root));
    add({"rect",
         {{"x", number(bounds.left)},
          {"y", number(bounds.top)},
          {"width", number(bounds.width())},
          {"height", number(bounds.height())},
          {"fill", hex(kPaper)}}});
}

void SvgCanvas::add(xml::WrittenElement element) {
    open_.back().children.push_back(std::move(element));
}

void SvgCanvas::polyline(const std::vector<Place>& places, const Pen& pen) {
    add({"polyline", stroked({{"points", list_of(places)}}, pen)});
}

void SvgCanvas::polygon(const std::vector<Place>& places, Colour fill) {
    add({"polygon", {{"points", list_of(places)}, {"fill", hex(fill)}}});
}

void SvgCanvas::rectangle(Place left_top, Place right_bottom, const Pen& pen) {
    add({"rect", stroked({{"x", number(left_top.x)},
                          {"y", number(left_top.y)},
                          {"width", number(right_bottom.x - left_top.x)},
                          {"height", number(right_bottom.y - left_top.y)}},
                         pen)});
}

void SvgCanvas::circle(Place centre, double radius, const Pen& pen) {
    add({"circle",
         stroked({{"cx", number(centre.x)}, {"cy", number(centre.y)}, {"r", number(radius)}}, pen)});
}

void SvgCanvas::disc(Place centre, double radius, Colour fill) {
    add({"circle",
         {{"cx", number(centre.x)}, {"cy", number(centre.y)}, {"r", number(radius)}, {"fill", hex(fill)}}});
}

void SvgCanvas::arc(Place centre, double radius, double from_deg, double to_deg, const Pen& pen) {
    const auto on_circle = [&](double degrees) {
        const double angle = degrees * std::numbers::pi / 180;
        return number(centre.x + radius * std::cos(angle)) + " " +
               number(centre.y + radius * std::sin(angle));
    };
    const std::string large = to_deg - from_deg > 180 ? "1" : "0";
    const std::string r = number(radius);
    add({"path", stroked({{"d", "M " + on_circle(from_deg) + " A " + r + " " + r + " 0 " + large + " 1 " +
                                    on_circle(to_deg)}},
                         pen)});
}

void SvgCanvas::text(Place at, const std::string& line, double width, double size, Colour colour) {
    add({"text",
         {{"x", number(at.x)},
          {"y", number(at.y)},
          {"font-size", number(kTextSize * size)},
          {"fill", hex(colour)},
          // Where the font is another one the text is squeezed into the room it was given.
          {"textLength", number(width)},
          {"lengthAdjust", "spacingAndGlyphs"}},
         line});
}

void SvgCanvas::begin(const Subject& subject) {
    xml::WrittenElement group{"g", {{"class", subject.kind}}};
    if (!subject.id.empty()) group.attributes.emplace_back("data-id", subject.id);
    if (!subject.about.empty()) group.add({"title", {}, subject.about});
    open_.push_back(std::move(group));
}

void SvgCanvas::end() {
    if (open_.size() < 2) throw std::logic_error("end() of a group that was not begun");
    xml::WrittenElement group = std::move(open_.back());
    open_.pop_back();
    add(std::move(group));
}

void SvgCanvas::clip(const Box& box) {
    const std::string id = "clip-" + std::to_string(++clips_);
    xml::WrittenElement path{"clipPath", {{"id", id}}};
    path.add({"rect",
              {{"x", number(box.left)},
               {"y", number(box.top)},
               {"width", number(box.width())},
               {"height", number(box.height())}}});
    add(std::move(path));
    open_.push_back({"g", {{"clip-path", "url(#" + id + ")"}}});
}

void SvgCanvas::unclip() {
    end();
}

xml::WrittenElement SvgCanvas::picture() const {
    if (open_.size() != 1) throw std::logic_error("a group of the picture has no end");
    return open_.front();
}

}  // namespace halfsplit::view::diagram
