#include "tests/view/diagram/drawing_checks.h"
#include "tests/view/diagram/segments.h"
#include "ui/view/diagram/text_metrics.h"

namespace halfsplit::test {

namespace {

using namespace view::diagram;

bool holds(const Box& outer, const Box& inner) {
    return outer.left <= inner.left && inner.right <= outer.right && outer.top <= inner.top &&
           inner.bottom <= outer.bottom;
}

/// A line has no width, so it meets a box where it passes through its inside.
bool meets(const Segment& segment, const Box& box) {
    const Box line = segment.box();
    return line.left < box.right && box.left < line.right + (line.left == line.right ? 1 : 0) &&
           line.top < box.bottom && box.top < line.bottom + (line.top == line.bottom ? 1 : 0) &&
           line.right > box.left && line.bottom > box.top;
}

bool is_inside_its_symbol(const Label& label, const Diagram& diagram) {
    return label.role == Label::Role::inside &&
           std::any_of(diagram.symbols.begin(), diagram.symbols.end(), [&](const Symbol& symbol) {
               return symbol.part == label.owner && holds(symbol.ink, label.box);
           });
}

}  // namespace

std::vector<std::string> illegible_texts(const Diagram& diagram) {
    std::vector<std::string> complaints;
    const std::vector<Segment> segments = segments_of(diagram);
    for (std::size_t i = 0; i < diagram.labels.size(); ++i) {
        const Label& label = diagram.labels[i];
        const std::string text = "\"" + label.text + "\" of " + label.owner;
        if (label.box.width() < text_width(label.text)) complaints.push_back(text + " is cut off");
        for (std::size_t k = i + 1; k < diagram.labels.size(); ++k)
            if (label.box.overlaps(diagram.labels[k].box))
                complaints.push_back(text + " on \"" + diagram.labels[k].text + "\" of " +
                                     diagram.labels[k].owner);
        const bool is_inside = is_inside_its_symbol(label, diagram);
        if (label.role == Label::Role::inside && !is_inside)
            complaints.push_back(text + " is not inside its symbol");
        for (const Symbol& symbol : diagram.symbols)
            if (label.box.overlaps(symbol.ink) && !(is_inside && symbol.part == label.owner))
                complaints.push_back(text + " on the symbol of " + symbol.part);
        for (const Segment& segment : segments)
            if (meets(segment, label.box)) complaints.push_back(text + " on a line");
    }
    return complaints;
}

std::vector<std::string> out_of_bounds(const Diagram& diagram) {
    std::vector<std::string> complaints;
    if (diagram.bounds.left != 0 || diagram.bounds.top != 0)
        complaints.push_back("the bounds do not start at 0, 0");
    for (const Segment& segment : segments_of(diagram))
        if (!holds(diagram.bounds, segment.box())) complaints.push_back("a line leaves the bounds");
    for (const Symbol& symbol : diagram.symbols)
        if (!holds(diagram.bounds, symbol.ink)) complaints.push_back(symbol.part + " leaves the bounds");
    for (const Label& label : diagram.labels)
        if (!holds(diagram.bounds, label.box))
            complaints.push_back("\"" + label.text + "\" leaves the bounds");
    return complaints;
}

}  // namespace halfsplit::test
