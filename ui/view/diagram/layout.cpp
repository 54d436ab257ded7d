#include "ui/view/diagram/layout.h"

#include <algorithm>
#include <string>
#include <utility>

#include "engine/base/index.h"
#include "ui/view/diagram/bands.h"
#include "ui/view/diagram/columns.h"
#include "ui/view/diagram/emit.h"
#include "ui/view/diagram/path.h"
#include "ui/view/diagram/text_metrics.h"

namespace halfsplit::view::diagram {

namespace {

constexpr int kMargin = 6;
constexpr int kBetweenBands = 6;
constexpr int kLegendGap = 10;

void append(Diagram& all, Diagram more) {
    const auto take = [](auto& to, auto& from) {
        to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
    };
    take(all.symbols, more.symbols);
    take(all.wires, more.wires);
    take(all.rails, more.rails);
    take(all.links, more.links);
    take(all.dots, more.dots);
    take(all.labels, more.labels);
}

Label line_of_text(const std::string& text, Label::Role role, const std::string& owner, Spot at) {
    return {text, role, owner, {at.x, at.y, at.x + text_width(text), at.y + kLineHeight}};
}

/// What splices and couplings are has no room beside them.
std::vector<Label> legend_of(const model::Circuit& circuit, const Selection& selection, Spot from, int width) {
    std::vector<Label> lines;
    int column = 1;
    for (const int index : selection.parts) {
        const model::Part& part = circuit.parts[at(index)];
        const Arrangement arrangement = picture_of(part).arrangement;
        const bool is_splice = arrangement == Arrangement::point && part.kind->element == "splice";
        if (arrangement != Arrangement::contacts && !is_splice) continue;
        lines.push_back(line_of_text(part.id + "  " + part.title, Label::Role::legend, part.id, {0, 0}));
        column = std::max(column, lines.back().box.width() + kLegendGap);
    }
    const int count = static_cast<int>(lines.size());
    const int columns = std::max(1, (width + kLegendGap) / column);
    const int rows = (count + columns - 1) / columns;
    for (int line = 0; line < count; ++line)
        lines[at(line)].box = moved(lines[at(line)].box,
                                    {from.x + line / rows * column, from.y + line % rows * kLineHeight});
    return lines;
}

}  // namespace

Diagram lay_out(const model::Circuit& circuit, const Selection& selection, const LayoutOptions& options) {
    const Heights heights(circuit, selection);
    const std::vector<Sheet> bands =
        bands_of(circuit, sheet_of(circuit, selection, heights), heights, options.band_slots);
    Diagram all;
    all.title = circuit.title;
    all.labels.push_back(line_of_text(circuit.title, Label::Role::heading, "", {kMargin, kMargin}));
    int y = kMargin + kLineHeight + 3;
    int right = all.labels.back().box.right;
    for (std::size_t number = 0; number < bands.size(); ++number) {
        if (bands.size() > 1) {
            all.labels.push_back(
                line_of_text("Band " + std::to_string(number + 1), Label::Role::heading, "", {kMargin, y}));
            y += kLineHeight + 2;
        }
        Grid grid = grid_of(bands[number], rank(circuit, bands[number], heights));
        arrange_columns(grid, circuit);
        Diagram band = drawn(std::move(grid), circuit);
        move(band, {kMargin - band.bounds.left, y - band.bounds.top});
        y = band.bounds.bottom + kBetweenBands;
        right = std::max(right, band.bounds.right);
        append(all, std::move(band));
    }
    for (Label& line : legend_of(circuit, selection, {kMargin, y}, right - kMargin)) all.labels.push_back(std::move(line));
    const Box box = extent(all);
    all.bounds = {0, 0, box.right + kMargin, box.bottom + kMargin};
    return all;
}

Diagram lay_out(const model::Circuit& circuit) {
    return lay_out(circuit, everything(circuit));
}

}  // namespace halfsplit::view::diagram
