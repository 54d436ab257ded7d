#include "ui/view/diagram/layout.h"

#include <algorithm>
#include <string>
#include <utility>

#include "engine/base/index.h"
#include "ui/view/diagram/bands.h"
#include "ui/view/diagram/columns.h"
#include "ui/view/diagram/crossings.h"
#include "ui/view/diagram/emit.h"
#include "ui/view/diagram/path.h"
#include "ui/view/diagram/text_metrics.h"

namespace halfsplit::view::diagram {

namespace {

constexpr int kMargin = 6;
constexpr int kBetweenBands = 8;
constexpr int kHeading = kLineHeight + 3;  ///< the circuit's title above all
constexpr int kLegendGap = 10;
constexpr int kLegendLines = 3;  ///< reckoned with when a page is filled
/// Letters of 2.6 mm come out 2 mm tall.
constexpr double kLeastScale = 0.77;
/// Sheets lie across unless they come out much larger upright.
constexpr double kUprightWorth = 0.85;
/// A crossing less is worth so much of the scale.
constexpr double kWorthOfCrossing = 0.004;
/// More of them on one page are a puzzle.
constexpr std::size_t kMostBandsOnPage = 6;
/// A page of 52 000 square millimetres holds no more symbols at a good 500 each with their wires: do not try.
constexpr std::size_t kMostPiecesOnPage = 100;

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
std::vector<Label> legend_of(const model::Circuit& circuit, const Selection& selection, Spot from, int width,
                             bool has_bands) {
    std::vector<Label> lines;
    const auto add = [&](const std::string& text, const std::string& owner) {
        lines.push_back(line_of_text(text, Label::Role::legend, owner, {0, 0}));
    };
    if (has_bands) add("J1 (2): goes on in band 2", "");
    for (const int index : selection.parts) {
        const model::Part& part = circuit.parts[at(index)];
        const Shape shape = picture_of(part).shape;
        if (shape == Shape::coupling || shape == Shape::splice) add(part.id + "  " + part.title, part.id);
    }
    int column = 1;
    for (const Label& line : lines) column = std::max(column, line.box.width() + kLegendGap);
    const int count = static_cast<int>(lines.size());
    const int columns = std::max(1, (width + kLegendGap) / column);
    const int rows = (count + columns - 1) / columns;
    for (int line = 0; line < count; ++line)
        lines[at(line)].box =
            moved(lines[at(line)].box, {from.x + line / rows * column, from.y + line % rows * kLineHeight});
    return lines;
}

Diagram laid_out(const model::Circuit& circuit, const Heights& heights, const Sheet& sheet) {
    Grid grid = grid_of(sheet, rank(circuit, sheet, heights));
    arrange_columns(grid, circuit);
    return drawn(std::move(grid), circuit);
}

/// Bands side by side as far as the width allows, then below.
class Shelves {
  public:
    explicit Shelves(int width) : width_(width) {}

    /// Where the left top corner of the next box goes.
    Spot put(const Box& box) {
        if (x_ > 0 && x_ + box.width() > width_) {
            x_ = 0;
            y_ = bottom_ + kBetweenBands;
        }
        const Spot spot{x_, y_};
        x_ += box.width() + kBetweenBands;
        right_ = std::max(right_, x_ - kBetweenBands);
        bottom_ = std::max(bottom_, y_ + box.height());
        return spot;
    }
    int right() const { return right_; }
    int bottom() const { return bottom_; }

  private:
    int width_;
    int x_ = 0;
    int y_ = 0;
    int right_ = 0;
    int bottom_ = 0;
};

/// One way of wrapping, and how large it comes out on the page.
struct Wrapping {
    std::vector<Diagram> bands;
    std::vector<Spot> places;
    int right = 0;
    int bottom = 0;
    double scale = 0;  ///< at which it fits the page; upright counts for a little less
};

void number_bands(std::vector<Diagram>& bands) {
    if (bands.size() < 2) return;
    for (std::size_t number = 0; number < bands.size(); ++number) {
        Diagram& band = bands[number];
        const int y = band.bounds.top - kLineHeight - 2;
        band.labels.push_back(line_of_text("Band " + std::to_string(number + 1), Label::Role::heading, "",
                                           {band.bounds.left, y}));
        band.bounds = extent(band);
    }
}

/// The bands on shelves of the width that makes them come out largest.
Wrapping wrap(std::vector<Diagram> bands, const LayoutOptions& options) {
    number_bands(bands);
    const int legend_height = kLegendLines * kLineHeight;
    Wrapping best;
    int width = 0;
    for (const Diagram& band : bands) {
        width += band.bounds.width() + kBetweenBands;
        Shelves shelves(width);
        std::vector<Spot> places;
        places.reserve(bands.size());
        for (const Diagram& each : bands) places.push_back(shelves.put(each.bounds));
        const double wide = (shelves.right() + 2.0 * kMargin) / kUnitsPerMm;
        const double high = (shelves.bottom() + legend_height + kHeading + 2.0 * kMargin) / kUnitsPerMm;
        const double across = std::min(options.page_width_mm / wide, options.page_height_mm / high);
        const double upright = std::min(options.page_height_mm / wide, options.page_width_mm / high);
        const double scale = std::max(across, upright * kUprightWorth);
        if (scale > best.scale) best = {{}, std::move(places), shelves.right(), shelves.bottom(), scale};
    }
    best.bands = std::move(bands);
    return best;
}

/// Each as wide as the page allows, below each other.
Wrapping stacked(std::vector<Diagram> bands, const LayoutOptions& options) {
    number_bands(bands);
    Wrapping wrapping;
    Shelves shelves(options.page_width_mm * kUnitsPerMm);
    for (const Diagram& band : bands) wrapping.places.push_back(shelves.put(band.bounds));
    wrapping.right = shelves.right();
    wrapping.bottom = shelves.bottom();
    wrapping.bands = std::move(bands);
    return wrapping;
}

std::vector<Diagram> laid_out(const model::Circuit& circuit, const Heights& heights,
                              const std::vector<Sheet>& sheets) {
    std::vector<Diagram> bands;
    bands.reserve(sheets.size());
    for (const Sheet& sheet : sheets) bands.push_back(laid_out(circuit, heights, sheet));
    return bands;
}

/// Beyond its natural size nothing is gained; where lines cross less one may look a little closer.
double worth(const Wrapping& wrapping) {
    int crossed = 0;
    for (const Diagram& band : wrapping.bands) crossed += crossings(band);
    return std::min(wrapping.scale, 1.0) - kWorthOfCrossing * crossed;
}

/// What fits a page legibly is wrapped so that it comes out largest; what does not takes a band a page.
Wrapping best_wrapping(const model::Circuit& circuit, const Heights& heights, const Sheet& whole,
                       const LayoutOptions& options) {
    const int page_slots = options.page_width_mm * kUnitsPerMm / kSlot;
    const auto band_a_page = [&] {
        return stacked(laid_out(circuit, heights, bands_of(circuit, whole, heights, page_slots * 3 / 4)),
                       options);
    };
    if (whole.pieces.size() > kMostPiecesOnPage) return band_a_page();
    Wrapping best;
    for (const int slots : {page_slots * 5 / 4, page_slots * 3 / 4, page_slots / 2}) {
        const std::vector<Sheet> sheets = bands_of(circuit, whole, heights, slots);
        if (sheets.size() > kMostBandsOnPage) break;
        Wrapping wrapping = wrap(laid_out(circuit, heights, sheets), options);
        const bool is_legible = wrapping.scale >= kLeastScale * kUprightWorth;
        if (is_legible && (best.bands.empty() || worth(wrapping) > worth(best))) best = std::move(wrapping);
    }
    return best.bands.empty() ? band_a_page() : best;
}

}  // namespace

Diagram lay_out(const model::Circuit& circuit, const Selection& selection, const LayoutOptions& options) {
    return lay_out(circuit, selection, Heights(circuit, selection), options);
}

Diagram lay_out(const model::Circuit& circuit, const Selection& selection, const Heights& heights,
                const LayoutOptions& options) {
    const Sheet whole = sheet_of(circuit, selection, heights);
    Wrapping best = best_wrapping(circuit, heights, whole, options);
    Diagram all;
    all.title = options.title.empty() ? circuit.title : options.title;
    all.labels.push_back(line_of_text(all.title, Label::Role::heading, "", {kMargin, kMargin}));
    for (std::size_t i = 0; i < best.bands.size(); ++i) {
        Diagram& band = best.bands[i];
        move(band, {kMargin + best.places[i].x - band.bounds.left,
                    kMargin + kHeading + best.places[i].y - band.bounds.top});
        append(all, std::move(band));
    }
    const Spot foot{kMargin, kMargin + kHeading + best.bottom + kBetweenBands};
    for (Label& line : legend_of(circuit, selection, foot, best.right, best.bands.size() > 1))
        all.labels.push_back(std::move(line));
    const Box box = extent(all);
    all.bounds = {0, 0, box.right + kMargin, box.bottom + kMargin};
    return all;
}

double fit_scale(const Diagram& diagram, const LayoutOptions& options) {
    const double wide_mm = static_cast<double>(diagram.bounds.width()) / kUnitsPerMm;
    const double high_mm = static_cast<double>(diagram.bounds.height()) / kUnitsPerMm;
    const double across = std::min(options.page_width_mm / wide_mm, options.page_height_mm / high_mm);
    const double upright = std::min(options.page_height_mm / wide_mm, options.page_width_mm / high_mm);
    return std::max(across, upright);
}

double print_scale(const Diagram& diagram, const LayoutOptions& options) {
    const double scale = fit_scale(diagram, options);
    return scale < kLeastScale ? 1 : std::min(1.0, scale);
}

Diagram lay_out(const model::Circuit& circuit) {
    return lay_out(circuit, everything(circuit));
}

}  // namespace halfsplit::view::diagram
