#pragma once

#include <string>
#include <vector>

#include "engine/xml/writer.h"
#include "ui/view/diagram/canvas.h"

namespace halfsplit::view::diagram {

/// Draws into an SVG 1.1 picture, its size on paper in millimetres times `scale`.
class SvgCanvas final : public Canvas {
  public:
    SvgCanvas(const Box& bounds, const std::string& title, double scale = 1);

    void polyline(const std::vector<Place>& places, const Pen& pen) override;
    void polygon(const std::vector<Place>& places, Colour fill) override;
    void rectangle(Place left_top, Place right_bottom, const Pen& pen) override;
    void circle(Place centre, double radius, const Pen& pen) override;
    void disc(Place centre, double radius, Colour fill) override;
    void arc(Place centre, double radius, double from_deg, double to_deg, const Pen& pen) override;
    void text(Place at, const std::string& line, double width, double size, Colour colour) override;
    void begin(const Subject& subject) override;
    void end() override;
    void clip(const Box& box) override;
    void unclip() override;

    /// The picture, to stand in an HTML page. Throws std::logic_error where a begin() or clip() has no end.
    xml::WrittenElement picture() const;

  private:
    void add(xml::WrittenElement element);

    std::vector<xml::WrittenElement> open_;  ///< the picture, then every group not yet ended
    int clips_ = 0;
};

}  // namespace halfsplit::view::diagram
