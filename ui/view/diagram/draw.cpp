#include "ui/view/diagram/draw.h"

#include <algorithm>
#include <map>
#include <string>

#include "ui/view/diagram/text_metrics.h"
#include "ui/view/diagram/wire_colours.h"

namespace halfsplit::view::diagram {

namespace {

constexpr Pen kOutline{kInk, 1.5, 0};
constexpr double kCoreWidth = 0.9;
constexpr double kTracerDash = 3;
constexpr Pen kRailPen{kInk, 1.5, 0};
constexpr Pen kLinkPen{Colour{90, 90, 90}, 0.5, 1.5};
constexpr double kDotRadius = 1.6;
constexpr Colour kSoftText{70, 70, 70};

using LabelsByOwner = std::map<std::string, std::vector<const Label*>>;

std::vector<Place> places_of(const std::vector<Spot>& path) {
    std::vector<Place> places;
    places.reserve(path.size());
    for (const Spot& spot : path)
        places.push_back({static_cast<double>(spot.x), static_cast<double>(spot.y)});
    return places;
}

void draw_label(const Label& label, Canvas& canvas) {
    const bool is_soft = label.role == Label::Role::title || label.role == Label::Role::legend;
    canvas.text({static_cast<double>(label.box.left), label.box.top + kTextAscent}, label.text,
                exact_width(label.text), 1, is_soft ? kSoftText : kInk);
}

void draw_wire(const WireLine& wire, Canvas& canvas) {
    const std::vector<Place> path = places_of(wire.path);
    canvas.polyline(path, kOutline);
    canvas.polyline(path, {wire_colour(wire.base_colour), kCoreWidth, 0});
    if (!wire.tracer_colour.empty())
        canvas.polyline(path, {wire_colour(wire.tracer_colour), kCoreWidth, kTracerDash});
}

bool is_of_wire(const Label& label) {
    return label.role == Label::Role::wire;
}

/// Labels by what they stand at, wires and parts apart: an id may be both.
LabelsByOwner labels_by_owner(const Diagram& diagram, bool of_wires) {
    LabelsByOwner labels;
    for (const Label& label : diagram.labels)
        if (is_of_wire(label) == of_wires) labels[label.owner].push_back(&label);
    return labels;
}

void draw_wires(const Diagram& diagram, Canvas& canvas) {
    LabelsByOwner labels = labels_by_owner(diagram, true);
    for (const WireLine& wire : diagram.wires) {
        std::string about = wire.wire + ": " + wire.from + " to " + wire.to;
        for (const Label* label : labels[wire.wire]) about += ", " + label->text;
        canvas.begin({"wire", wire.wire, about});
        draw_wire(wire, canvas);
        for (const Label* label : labels[wire.wire]) draw_label(*label, canvas);
        canvas.end();
        labels.erase(wire.wire);
    }
}

void draw_rails(const Diagram& diagram, Canvas& canvas) {
    for (const Rail& rail : diagram.rails) {
        canvas.begin({"rail", rail.splice, rail.splice});
        canvas.polyline(places_of(rail.path), kRailPen);
        canvas.end();
    }
    for (const Dot& dot : diagram.dots)
        canvas.disc({static_cast<double>(dot.at.x), static_cast<double>(dot.at.y)}, kDotRadius, kInk);
}

void draw_links(const Diagram& diagram, Canvas& canvas) {
    for (const MotionLink& link : diagram.links) {
        canvas.begin({"link", link.mechanism.empty() ? link.part : link.mechanism, ""});
        for (const auto& path : link.paths) canvas.polyline(places_of(path), kLinkPen);
        canvas.end();
    }
}

void draw_parts(const Diagram& diagram, Canvas& canvas) {
    LabelsByOwner labels = labels_by_owner(diagram, false);
    for (const Symbol& symbol : diagram.symbols) {
        canvas.begin({"part", symbol.part, symbol.part});
        draw_symbol(symbol, canvas);
        for (const Label* label : labels[symbol.part]) draw_label(*label, canvas);
        canvas.end();
        labels.erase(symbol.part);
    }
    for (const auto& [owner, rest] : labels)
        for (const Label* label : rest) draw_label(*label, canvas);
}

}  // namespace

void draw(const Diagram& diagram, Canvas& canvas) {
    draw_links(diagram, canvas);
    draw_wires(diagram, canvas);
    draw_rails(diagram, canvas);
    draw_parts(diagram, canvas);
}

}  // namespace halfsplit::view::diagram
