#pragma once

#include <string>
#include <vector>

#include "ui/view/diagram/canvas.h"

namespace halfsplit::view::diagram {

/// Lays on its side what is drawn upright: a quarter turn about the middle of a box, top to the left. Letters
/// stay upright.
class LyingCanvas final : public Canvas {
  public:
    LyingCanvas(Canvas& under, const Box& box)
        : under_(under), middle_{(box.left + box.right) / 2.0, (box.top + box.bottom) / 2.0} {}

    void polyline(const std::vector<Place>& places, const Pen& pen) override {
        under_.polyline(turned(places), pen);
    }
    void polygon(const std::vector<Place>& places, Colour fill) override {
        under_.polygon(turned(places), fill);
    }
    void rectangle(Place left_top, Place right_bottom, const Pen& pen) override {
        under_.rectangle(turned({right_bottom.x, left_top.y}), turned({left_top.x, right_bottom.y}), pen);
    }
    void circle(Place centre, double radius, const Pen& pen) override {
        under_.circle(turned(centre), radius, pen);
    }
    void disc(Place centre, double radius, Colour fill) override {
        under_.disc(turned(centre), radius, fill);
    }
    void arc(Place centre, double radius, double from_deg, double to_deg, const Pen& pen) override {
        under_.arc(turned(centre), radius, from_deg - 90, to_deg - 90, pen);
    }
    void text(Place at, const std::string& line, double width, double size, Colour colour) override {
        under_.text(turned(at), line, width, size, colour);
    }
    void begin(const Subject& subject) override { under_.begin(subject); }
    void end() override { under_.end(); }
    void clip(const Box& box) override { under_.clip(box); }
    void unclip() override { under_.unclip(); }

  private:
    Place turned(Place place) const {
        return {middle_.x + (place.y - middle_.y), middle_.y - (place.x - middle_.x)};
    }
    std::vector<Place> turned(std::vector<Place> places) const {
        for (Place& place : places) place = turned(place);
        return places;
    }

    Canvas& under_;
    Place middle_;
};

/// The same symbol as it is drawn upright.
Symbol stood_up(Symbol symbol);

}  // namespace halfsplit::view::diagram
