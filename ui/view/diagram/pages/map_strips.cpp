#include "ui/view/diagram/pages/map_strips.h"

#include <algorithm>
#include <map>
#include <string>
#include <utility>

#include "engine/base/index.h"
#include "ui/view/diagram/shape.h"
#include "ui/view/diagram/text_metrics.h"

namespace halfsplit::view::diagram {

namespace {

constexpr int kSymbolLeft = 14;
constexpr int kSymbolLength = 22;
constexpr int kSymbolThickness = 10;
constexpr int kMapGap = 4;
constexpr int kIdLeft = kSymbolLeft + kSymbolLength + kMapGap;
constexpr int kTitleWidth = 80;
constexpr int kLoadsWidth = 104;
constexpr int kBetweenStrips = 2;
constexpr int kAboveHeading = 5;

/// A text of the third column, and where it leads.
struct MapText {
    std::string text;
    int page = -1;
    std::string leads_to = {};
};

class StripMaker {
  public:
    StripMaker(const model::Circuit& circuit, const Heights& heights, const Whereabouts& whereabouts,
               int number)
        : circuit_(circuit), heights_(heights), whereabouts_(whereabouts), number_(number) {}

    MapStrips make() {
        made_.blocks = feed_blocks(circuit_, heights_);
        find_columns();
        for (int block = 0; block < static_cast<int>(made_.blocks.size()); ++block) add_block(block);
        add_grounds();
        made_.width = loads_left_ + kLoadsWidth;
        return std::move(made_);
    }

  private:
    const model::Part& part(int index) const { return circuit_.parts[at(index)]; }

    std::string name_of(int index) const {
        const std::string value = value_text(part(index));
        return part(index).id + (value.empty() ? "" : " " + value);
    }

    void find_columns() {
        int widest = 0;
        for (const FeedBlock& block : made_.blocks)
            for (const FeedWay& way : block.ways) widest = std::max(widest, text_width(name_of(way.in.part)));
        title_left_ = kIdLeft + widest + kMapGap;
        loads_left_ = title_left_ + kTitleWidth + kMapGap;
    }

    void add_block(int number) {
        const FeedBlock& block = made_.blocks[at(number)];
        MapStrip heading{number, true};
        const model::Part& own = part(block.at.part);
        const std::string point = circuit_.point_name(block.at);
        int y = kAboveHeading;
        const auto say = [&](const std::string& text, Label::Role role) {
            for (const std::string& line : wrapped(text, loads_left_ + kLoadsWidth)) {
                heading.labels.push_back({line, role, own.id, text_box(line, 0, y)});
                y += kLineHeight;
            }
        };
        const bool is_from_elsewhere = block.from.part >= 0 && !(block.from == block.at);
        say(point + " " + own.title + (is_from_elsewhere ? ", from " + circuit_.point_name(block.from) : ""),
            Label::Role::part);
        heading.height = y + kBetweenStrips;
        made_.strips.push_back(std::move(heading));
        for (const FeedWay& way : block.ways) add_way(number, way);
    }

    void add_way(int number, const FeedWay& way) {
        MapStrip strip{number};
        const bool is_protected = way.protection >= 0;
        const model::Part& first = part(way.in.part);
        std::vector<MapText> onwards = blocks_of(way);
        for (MapText& onward : by_page(way.loads)) onwards.push_back(std::move(onward));
        const std::string title = first.title + (is_protected ? "" : ", no fuse");
        const int lines = say_all(strip, way.in.part, title, onwards);
        const int middle = std::max(kSymbolThickness, lines * kLineHeight) / 2;
        strip.height = std::max(2 * middle, lines * kLineHeight) + kBetweenStrips;
        strip.tap_y = lines > 1 ? kLineHeight / 2 + (kSymbolThickness - kLineHeight) / 2 : middle;
        move_texts(strip, strip.tap_y - kLineHeight / 2);
        strip.height = std::max(strip.height, strip.tap_y - kLineHeight / 2 + lines * kLineHeight + 1);
        const int end = is_protected ? kSymbolLeft : kIdLeft - kMapGap;
        strip.tap = tap_of(way, strip.tap_y, end);
        if (is_protected) strip.symbols.push_back(lying(way, strip.tap_y));
        made_.strips.push_back(std::move(strip));
    }

    static void move_texts(MapStrip& strip, int down) {
        for (Label& label : strip.labels) {
            label.box.top += down;
            label.box.bottom += down;
        }
    }

    /// Id, title and what hangs on it, side by side; how many lines that takes.
    int say_all(MapStrip& strip, int owner, const std::string& title,
                const std::vector<MapText>& onwards) const {
        const std::string& id = part(owner).id;
        const std::string name = name_of(owner);
        strip.labels.push_back({name, Label::Role::part, id, text_box(name, kIdLeft, 0)});
        int lines = 0;
        for (const std::string& line : wrapped(title, kTitleWidth))
            strip.labels.push_back(
                {line, Label::Role::title, id, text_box(line, title_left_, kLineHeight * lines++)});
        int row = 0;
        for (const MapText& onward : onwards)
            for (const std::string& line : wrapped(onward.text, kLoadsWidth))
                strip.labels.push_back({line, onward.page < 0 ? Label::Role::title : Label::Role::reference,
                                        id, text_box(line, loads_left_, kLineHeight * row++), onward.page,
                                        onward.leads_to});
        return std::max({1, lines, row});
    }

    static Box text_box(const std::string& text, int left, int top) {
        return {left, top, left + text_width(text), top + kLineHeight};
    }

    std::vector<MapText> blocks_of(const FeedWay& way) const {
        std::vector<MapText> onwards;
        for (const int block : way.blocks) {
            const FeedBlock& next = made_.blocks[at(block)];
            const std::string to = circuit_.point_name(next.at);
            const bool is_by =
                next.from.part >= 0 && next.from.part != way.protection && !(next.from == next.at);
            onwards.push_back(
                {"→ " + to + (is_by ? " by " + circuit_.point_name(next.from) : ""), number_, to});
        }
        return onwards;
    }

    /// "→ 3: K2, P3", a line a page.
    std::vector<MapText> by_page(const std::vector<int>& parts) const {
        std::map<int, std::vector<int>> pages;
        for (const int each : parts)
            pages[whereabouts_.is_on_several() ? whereabouts_.page_of(each) : -1].push_back(each);
        std::vector<MapText> onwards;
        for (const auto& [page, on_it] : pages) {
            std::string text = page < 0 ? "" : "→ " + page_number(page) + ": ";
            for (std::size_t i = 0; i < on_it.size(); ++i) text += (i > 0 ? ", " : "") + part(on_it[i]).id;
            onwards.push_back({text, page, part(on_it.front()).id});
        }
        return onwards;
    }

    WireLine tap_of(const FeedWay& way, int y, int end) const {
        const model::Wire& wire = circuit_.wires[at(way.wire)];
        std::vector<Spot> path{{kMapRailX, y}, {end, y}};
        if (wire.from == way.in) std::swap(path.front(), path.back());
        return {wire.id,
                circuit_.point_name(wire.from),
                circuit_.point_name(wire.to),
                wire.base_colour,
                wire.tracer_colour,
                std::move(path)};
    }

    Symbol lying(const FeedWay& way, int y) const {
        Symbol symbol;
        symbol.part = part(way.protection).id;
        symbol.shape = picture_of(part(way.protection)).shape;
        symbol.is_level = true;
        constexpr int kHalf = kSymbolThickness / 2;
        symbol.ink = {kSymbolLeft, y - kHalf, kSymbolLeft + kSymbolLength, y + kHalf};
        const auto& pins = part(way.protection).pins;
        for (const bool is_in : {true, false})
            for (int pin = 0; pin < static_cast<int>(pins.size()); ++pin)
                if ((pin == way.in.pin) == is_in)
                    symbol.terminals.push_back({circuit_.point_name({way.protection, pin}),
                                                "",
                                                is_in ? Side::top : Side::bottom,
                                                {is_in ? symbol.ink.left : symbol.ink.right, y}});
        return symbol;
    }

    void add_grounds() {
        const std::vector<GroundUse> uses = ground_uses(circuit_);
        if (uses.empty()) return;
        MapStrip heading{-1, true};
        const std::string text = "Ground points";
        heading.labels.push_back({text, Label::Role::heading, "", text_box(text, 0, kAboveHeading)});
        heading.height = kAboveHeading + kLineHeight + kBetweenStrips;
        made_.strips.push_back(std::move(heading));
        for (const GroundUse& use : uses) add_ground(use);
    }

    void add_ground(const GroundUse& use) {
        MapStrip strip;
        const int lines = say_all(strip, use.ground, part(use.ground).title, by_page(use.parts));
        constexpr Box kInk{kSymbolLeft + 4, 1, kSymbolLeft + 18, 10};
        Symbol symbol;
        symbol.part = part(use.ground).id;
        symbol.shape = Shape::ground;
        symbol.ink = kInk;
        symbol.terminals.push_back({symbol.part, "", Side::top, {(kInk.left + kInk.right) / 2, kInk.top}});
        strip.symbols.push_back(std::move(symbol));
        move_texts(strip, 2);
        strip.height = std::max(kInk.bottom + 1, 2 + lines * kLineHeight) + kBetweenStrips;
        made_.strips.push_back(std::move(strip));
    }

    const model::Circuit& circuit_;
    const Heights& heights_;
    const Whereabouts& whereabouts_;
    int number_;
    MapStrips made_;
    int title_left_ = 0;
    int loads_left_ = 0;
};

}  // namespace

MapStrips map_strips(const model::Circuit& circuit, const Heights& heights, const Whereabouts& whereabouts,
                     int number) {
    return StripMaker(circuit, heights, whereabouts, number).make();
}

}  // namespace halfsplit::view::diagram
