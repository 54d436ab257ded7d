#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "ui/view/diagram/canvas.h"

namespace halfsplit::test {

/// Notes what is drawn and how far it reaches.
class RecordingCanvas final : public view::diagram::Canvas {
  public:
    using Place = view::diagram::Place;
    using Pen = view::diagram::Pen;
    using Colour = view::diagram::Colour;

    void polyline(const std::vector<Place>& places, const Pen& pen) override {
        ++strokes;
        pens.push_back(pen);
        for (const Place& place : places) reach(place, 0);
    }
    void polygon(const std::vector<Place>& places, Colour /*fill*/) override {
        ++strokes;
        for (const Place& place : places) reach(place, 0);
    }
    void rectangle(Place left_top, Place right_bottom, const Pen& /*pen*/) override {
        ++strokes;
        reach(left_top, 0);
        reach(right_bottom, 0);
    }
    void circle(Place centre, double radius, const Pen& /*pen*/) override {
        ++strokes;
        reach(centre, radius);
    }
    void disc(Place centre, double radius, Colour /*fill*/) override {
        ++strokes;
        reach(centre, radius);
    }
    void arc(Place centre, double radius, double from_deg, double to_deg, const Pen& /*pen*/) override {
        ++strokes;
        for (double degrees = from_deg; degrees <= to_deg; degrees += 5) {
            const double angle = degrees * std::numbers::pi / 180;
            reach({centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)}, 0);
        }
    }
    void text(Place at, const std::string& line, double width, double size, Colour /*colour*/) override {
        texts.push_back(line);
        reach({at.x, at.y - 3.8 * size}, 0);
        reach({at.x + width, at.y}, 0);
    }
    void begin(const view::diagram::Subject& subject) override { subjects.push_back(subject); }
    void end() override { ++ended; }
    void clip(const view::diagram::Box& /*box*/) override {}
    void unclip() override {}

    int strokes = 0;
    int ended = 0;
    double left = 1e9;
    double top = 1e9;
    double right = -1e9;
    double bottom = -1e9;
    std::vector<std::string> texts;
    std::vector<Pen> pens;
    std::vector<view::diagram::Subject> subjects;

  private:
    void reach(Place place, double radius) {
        left = std::min(left, place.x - radius);
        right = std::max(right, place.x + radius);
        top = std::min(top, place.y - radius);
        bottom = std::max(bottom, place.y + radius);
    }
};

}  // namespace halfsplit::test
