#include "ui/view/diagram/pages/feed_map.h"

#include <algorithm>
#include <utility>

#include "engine/base/index.h"
#include "ui/view/diagram/pages/map_strips.h"
#include "ui/view/diagram/path.h"
#include "ui/view/diagram/text_metrics.h"

namespace halfsplit::view::diagram {

namespace {

constexpr int kMapMargin = 6;
constexpr int kBetweenColumns = 12;
constexpr int kBelowTitle = 4;
constexpr int kMostColumns = 6;

/// How a map is broken into columns, and those into sheets.
struct Breaks {
    int column_height = 0;
    int columns_a_sheet = 0;
};

/// Strips one below the other, then in the next column, then on the next sheet.
class MapSetter {
  public:
    MapSetter(const model::Circuit& circuit, const MapStrips& made, const std::string& title, bool has_pages,
              Breaks breaks)
        : circuit_(circuit), made_(made), title_(title), has_pages_(has_pages), breaks_(breaks) {
        begin_sheet();
    }

    std::vector<Diagram> set() {
        for (std::size_t i = 0; i < made_.strips.size(); ++i) {
            const MapStrip& strip = made_.strips[i];
            // A heading alone at the foot of a column heads nothing.
            const bool takes_next = strip.is_heading && i + 1 < made_.strips.size();
            const int needed = strip.height + (takes_next ? made_.strips[i + 1].height : 0);
            if (y_ > top() && y_ + needed > top() + breaks_.column_height) next_column(strip);
            put(strip);
        }
        end_sheet();
        return std::move(sheets_);
    }

  private:
    void begin_sheet() {
        diagram_ = {};
        diagram_.title = title_;
        left_ = kMapMargin;
        y_ = top();
        column_ = 0;
        say(title_, Label::Role::heading, kMapMargin);
        if (has_pages_)
            say("→ 3: K2, P5: see K2 and P5 on page 3", Label::Role::legend,
                kMapMargin + text_width(title_) + kBetweenColumns);
    }

    void end_sheet() {
        end_rail();
        const Box box = extent(diagram_);
        diagram_.bounds = {0, 0, box.right + kMapMargin, box.bottom + kMapMargin};
        sheets_.push_back(std::move(diagram_));
    }

    void say(const std::string& text, Label::Role role, int left) {
        diagram_.labels.push_back(
            {text, role, "", {left, kMapMargin, left + text_width(text), kMapMargin + kLineHeight}});
    }

    static int top() { return kMapMargin + kLineHeight + kBelowTitle; }

    void next_column(const MapStrip& strip) {
        end_rail();
        left_ += made_.width + kBetweenColumns;
        y_ = top();
        if (++column_ == breaks_.columns_a_sheet) {
            end_sheet();
            begin_sheet();
        }
        if (strip.is_heading || strip.block < 0) return;
        // What a rail has in the next column stands below its name again.
        const auto heading = std::ranges::find_if(
            made_.strips, [&](const MapStrip& each) { return each.is_heading && each.block == strip.block; });
        put(*heading);
    }

    void put(const MapStrip& strip) {
        if (strip.is_heading) end_rail();
        const Spot by{left_, y_};
        for (Label label : strip.labels) {
            label.box = moved(label.box, by);
            diagram_.labels.push_back(std::move(label));
        }
        for (Symbol symbol : strip.symbols) {
            symbol.ink = moved(symbol.ink, by);
            for (Terminal& terminal : symbol.terminals)
                terminal.at = {terminal.at.x + by.x, terminal.at.y + by.y};
            diagram_.symbols.push_back(std::move(symbol));
        }
        y_ += strip.height;
        if (strip.is_heading && strip.block >= 0) rail_top_ = y_ - 1;
        if (!strip.tap) return;
        WireLine tap = *strip.tap;
        for (Spot& spot : tap.path) spot = {spot.x + by.x, spot.y + by.y};
        diagram_.wires.push_back(std::move(tap));
        block_ = strip.block;
        taps_.push_back(by.y + strip.tap_y);
    }

    void end_rail() {
        if (taps_.empty()) return;
        const int x = left_ + kMapRailX;
        const std::string point = circuit_.point_name(made_.blocks[at(block_)].at);
        diagram_.rails.push_back({point, {{x, rail_top_}, {x, taps_.back()}}});
        for (std::size_t i = 0; i + 1 < taps_.size(); ++i) diagram_.dots.push_back({point, {x, taps_[i]}});
        taps_.clear();
    }

    const model::Circuit& circuit_;
    const MapStrips& made_;
    std::string title_;
    bool has_pages_;
    Breaks breaks_;
    std::vector<Diagram> sheets_;
    Diagram diagram_;
    int left_ = 0;
    int y_ = 0;
    int column_ = 0;
    int block_ = -1;
    int rail_top_ = 0;
    std::vector<int> taps_;
};

}  // namespace

Diagram feed_map(const model::Circuit& circuit, const Heights& heights, const Whereabouts& whereabouts,
                 int number, const LayoutOptions& options) {
    const MapStrips made = map_strips(circuit, heights, whereabouts, number);
    int total = 0;
    int tallest = 0;
    for (const MapStrip& strip : made.strips) {
        total += strip.height;
        tallest = std::max(tallest, strip.height);
    }
    Diagram best;
    double best_scale = 0;
    for (int columns = 1; columns <= kMostColumns; ++columns) {
        Diagram diagram = MapSetter(circuit, made, options.title, whereabouts.is_on_several(),
                                    {total / columns + tallest, kMostColumns * 2})
                              .set()
                              .front();
        const double scale = fit_scale(diagram, options);
        if (scale <= best_scale) continue;
        best_scale = scale;
        best = std::move(diagram);
    }
    return best;
}

std::vector<Diagram> feed_map_sheets(const model::Circuit& circuit, const Heights& heights,
                                     const Whereabouts& whereabouts, int number,
                                     const LayoutOptions& options) {
    const MapStrips made = map_strips(circuit, heights, whereabouts, number);
    const int width = options.page_width_mm * kUnitsPerMm - 2 * kMapMargin;
    const int height = options.page_height_mm * kUnitsPerMm - 2 * kMapMargin - 2 * kLineHeight;
    const int columns = std::max(1, (width + kBetweenColumns) / (made.width + kBetweenColumns));
    return MapSetter(circuit, made, options.title, whereabouts.is_on_several(), {height, columns}).set();
}

}  // namespace halfsplit::view::diagram
