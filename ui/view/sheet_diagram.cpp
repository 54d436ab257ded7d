#include "ui/view/sheet_diagram.h"

#include <algorithm>

#include "ui/view/diagram/draw.h"
#include "ui/view/diagram/pages/pages.h"
#include "ui/view/diagram/path.h"
#include "ui/view/diagram/svg_canvas.h"
#include "ui/view/diagram/text_metrics.h"

namespace halfsplit::view {

using diagram::Box;
using diagram::Diagram;

namespace {

/// Letters of 2.6 mm come out 1.9 mm tall: smaller ones nobody reads at a vehicle.
constexpr double kLeastScale = 0.73;
/// A page lies upright like the others unless the picture comes out much smaller so.
constexpr double kUprightWorth = 0.85;
constexpr int kMargin = 4;  ///< around a part of the diagram, grid units

double mm(int units) {
    return static_cast<double>(units) / diagram::kUnitsPerMm;
}

struct Fit {
    double scale = 1;
    bool across = false;
};

Fit fit_of(const Box& box) {
    const double width = mm(box.width());
    const double height = mm(box.height());
    const double upright = std::min({1.0, kPictureWidthMm / width, kPictureHeightMm / height});
    const double across = std::min({1.0, kPictureHeightMm / width, kPictureWidthMm / height});
    return upright >= across * kUprightWorth ? Fit{upright, false} : Fit{across, true};
}

DiagramPage page_of(const Diagram& part, const std::string& title) {
    const Fit fit = fit_of(part.bounds);
    diagram::SvgCanvas canvas(part.bounds, title, fit.scale);
    diagram::draw(part, canvas);
    return {canvas.picture(), fit.across, fit.scale * mm(part.bounds.height())};
}

/// Where bands begin: the diagram can be cut there.
std::vector<int> band_tops(const Diagram& whole) {
    std::vector<int> tops;
    for (const diagram::Label& label : whole.labels)
        if (label.role == diagram::Label::Role::heading && label.text != whole.title)
            tops.push_back(label.box.top);
    std::ranges::sort(tops);
    tops.erase(std::unique(tops.begin(), tops.end()), tops.end());
    return tops;
}

template <class Thing, class Top>
void take(std::vector<Thing>& to, const std::vector<Thing>& from, int top, int bottom, const Top& top_of) {
    for (const Thing& each : from)
        if (top_of(each) >= top && top_of(each) < bottom) to.push_back(each);
}

/// What lies between two levels. No line crosses from band to band.
Diagram between(const Diagram& whole, int top, int bottom) {
    const auto of_path = [](const auto& line) { return line.path.front().y; };
    Diagram part;
    part.title = whole.title;
    take(part.symbols, whole.symbols, top, bottom, [](const auto& symbol) { return symbol.ink.top; });
    take(part.wires, whole.wires, top, bottom, of_path);
    take(part.rails, whole.rails, top, bottom, of_path);
    take(part.links, whole.links, top, bottom, [](const auto& link) { return link.paths.front().front().y; });
    take(part.dots, whole.dots, top, bottom, [](const auto& dot) { return dot.at.y; });
    take(part.labels, whole.labels, top, bottom, [](const auto& label) { return label.box.top; });
    const Box box = extent(part);
    part.bounds = {box.left - kMargin, box.top - kMargin, box.right + kMargin, box.bottom + kMargin};
    return part;
}

/// Bands together as long as they fit a page across.
std::vector<Diagram> cut(const Diagram& whole) {
    const std::vector<int> tops = band_tops(whole);
    if (tops.size() < 2) return {whole};
    std::vector<Diagram> parts;
    int begin = whole.bounds.top;
    for (std::size_t band = 1; band <= tops.size(); ++band) {
        const int end = band == tops.size() ? whole.bounds.bottom : tops[band];
        const int with_next = band + 1 < tops.size() ? tops[band + 1] : whole.bounds.bottom;
        if (band < tops.size() && mm(with_next - begin) <= kPictureWidthMm) continue;
        parts.push_back(between(whole, begin, end));
        begin = end;
    }
    return parts;
}

void add_pages(const Diagram& diagram, std::vector<DiagramPage>& pages) {
    if (fit_of(diagram.bounds).scale >= kLeastScale) return pages.push_back(page_of(diagram, diagram.title));
    for (const Diagram& part : cut(diagram)) pages.push_back(page_of(part, diagram.title));
}

/// A vehicle is drawn by its circuits, and its map goes before them.
void add_vehicle(const model::Circuit& circuit, const diagram::LayoutOptions& paper,
                 std::vector<DiagramPage>& pages) {
    for (const Diagram& sheet : diagram::map_sheets_of(circuit, paper)) add_pages(sheet, pages);
    for (const diagram::Page& page : diagram::pages_of(circuit, paper))
        if (!page.is_map) add_pages(page.diagram, pages);
}

}  // namespace

std::vector<DiagramPage> diagram_pages(const model::Circuit& circuit, const diagram::Selection& drawn) {
    std::vector<DiagramPage> pages;
    const diagram::LayoutOptions paper{static_cast<int>(kPictureHeightMm), static_cast<int>(kPictureWidthMm)};
    const bool is_all = drawn.parts.size() == circuit.parts.size();
    if (drawn.parts.size() <= kMostPartsDrawn)
        add_pages(lay_out(circuit, drawn, paper), pages);
    else if (is_all && circuit.files.size() > 1)
        add_vehicle(circuit, paper, pages);
    return pages;
}

}  // namespace halfsplit::view
