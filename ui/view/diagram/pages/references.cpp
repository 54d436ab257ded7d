#include "ui/view/diagram/pages/references.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <utility>

#include "engine/base/index.h"
#include "ui/view/diagram/free_places.h"
#include "ui/view/diagram/path.h"
#include "ui/view/diagram/shape.h"
#include "ui/view/diagram/text_metrics.h"

namespace halfsplit::view::diagram {

namespace {

/// More than this beside a point nobody reads: the foot lists them.
constexpr std::size_t kMostBeside = 3;
/// A mark further from its point says whose it is.
constexpr int kAtIt = 5;
constexpr int kMarkFurthest = 120;
constexpr int kMarkStep = 2;
constexpr int kMarkGap = 3;
constexpr int kMarkMargin = 6;

/// "→ 3"
std::string to_page(int page) {
    return "→ " + page_number(page);
}

/// A point of the page that goes on elsewhere.
struct Onward {
    model::PinRef point;
    std::string name;
    std::vector<int> beside;  ///< pages told beside it
    std::vector<int> foot;    ///< pages told at the foot
};

std::vector<int> without(std::vector<int> pages, int page) {
    std::erase(pages, page);
    return pages;
}

std::vector<Onward> onwards_of(const model::Circuit& circuit, const Whereabouts& whereabouts, int number,
                               int map, const Selection& selection) {
    std::vector<Onward> all;
    for (const int part : selection.parts)
        for (int pin = 0; pin < static_cast<int>(circuit.parts[at(part)].pins.size()); ++pin) {
            const model::PinRef point{part, pin};
            const std::vector<int> others = without(whereabouts.pages_at(point), number);
            if (others.empty()) continue;
            Onward onward{point, circuit.point_name(point), others, others};
            const int home = whereabouts.home_of(point);
            if (picture_of(circuit.parts[at(part)]).shape == Shape::ground) {
                onward.beside = {map};
                onward.foot.clear();
            } else if (others.size() > kMostBeside && home == number) {
                onward.beside = {map};
            } else if (others.size() > kMostBeside) {
                onward.beside = {home, map};
                onward.foot = {home};
            }
            all.push_back(std::move(onward));
        }
    return all;
}

/// Where a mark would best begin, and what it must stay near.
struct Anchor {
    Spot spot;
    int right = 0;  ///< a mark that begins in line right of here reads on from the point's name
    int top = 0;
    bool has_name = false;
};

class Marker {
  public:
    explicit Marker(Diagram& diagram) : diagram_(diagram), ground_(diagram) {}

    void mark(const Onward& onward) {
        for (const Anchor& anchor : anchors_of(onward.name)) mark_at(onward, anchor);
    }

  private:
    /// A rail has one in each band, at its name; a pin one at its end, a ground point one at its id.
    std::vector<Anchor> anchors_of(const std::string& point) const {
        std::vector<Anchor> anchors;
        for (const Symbol& symbol : diagram_.symbols)
            for (const Terminal& terminal : symbol.terminals) {
                if (terminal.point != point) continue;
                const Label* id = symbol.shape == Shape::ground ? id_of(symbol) : nullptr;
                anchors.push_back(id == nullptr ? Anchor{terminal.at}
                                                : Anchor{terminal.at, id->box.right, id->box.top, true});
            }
        for (const Label& label : diagram_.labels)
            if (label.role == Label::Role::rail && label.owner == point && !label.text.starts_with("("))
                anchors.push_back({{label.box.left, label.box.top}, label.box.right, label.box.top, true});
        return anchors;
    }

    /// Of a ground point, which may be drawn several times: the one beside this symbol.
    const Label* id_of(const Symbol& symbol) const {
        for (const Label& label : diagram_.labels)
            if (label.role == Label::Role::part && label.owner == symbol.part &&
                std::abs(label.box.top - symbol.ink.top) < 2 * kLineHeight &&
                std::abs(label.box.left - symbol.ink.right) < 3 * kLineHeight)
                return &label;
        return nullptr;
    }

    /// The texts of a mark: one a page, the point's name before the first where it stands apart from it.
    struct Texts {
        std::vector<std::string> lines;
        bool is_stacked = false;  ///< below each other, where a row finds no room

        int width() const {
            int width = is_stacked ? 0 : -kMarkGap;
            for (const std::string& line : lines)
                width = is_stacked ? std::max(width, text_width(line)) : width + text_width(line) + kMarkGap;
            return width;
        }
        int height() const { return kLineHeight * (is_stacked ? static_cast<int>(lines.size()) : 1); }
    };

    static Texts texts_of(const Onward& onward, bool with_name, bool is_stacked) {
        Texts texts{{}, is_stacked};
        for (const int page : onward.beside) texts.lines.push_back(to_page(page));
        if (with_name) texts.lines.front().insert(0, onward.name + " ");
        return texts;
    }

    void mark_at(const Onward& onward, const Anchor& anchor) {
        const Texts plain = texts_of(onward, false, false);
        if (anchor.has_name && put(onward, plain, {anchor.right + kMarkGap, anchor.top})) return;
        const FreePlaces near = ground_.around(anchor.spot, kMarkFurthest * 2);
        if (!anchor.has_name && search(onward, plain, near, anchor.spot, kAtIt)) return;
        for (const int reach : {kMarkFurthest / 8, kMarkFurthest / 3, kMarkFurthest})
            for (const bool is_stacked : {false, true})
                if (search(onward, texts_of(onward, true, is_stacked), near, anchor.spot, reach)) return;
    }

    /// The nearest place there is.
    bool search(const Onward& onward, const Texts& texts, const FreePlaces& near, Spot from, int reach) {
        const int width = texts.width();
        const int height = texts.height();
        std::vector<std::pair<double, Spot>> places;
        for (int y = -reach - height; y <= reach; y += kMarkStep)
            for (int x = -reach - width; x <= reach; x += kMarkStep) {
                const double dx = std::max({x, -(x + width), 0});
                const double dy = std::max({y, -(y + height), 0});
                if (const double away = std::hypot(dx, dy); away <= reach) places.push_back({away, {x, y}});
            }
        std::ranges::stable_sort(places, {}, &std::pair<double, Spot>::first);
        for (const auto& [away, by] : places) {
            const Spot spot{from.x + by.x, from.y + by.y};
            if (near.is_free({spot.x, spot.y, spot.x + width, spot.y + height}) && put(onward, texts, spot))
                return true;
        }
        return false;
    }

    bool put(const Onward& onward, const Texts& texts, Spot spot) {
        const Box all{spot.x, spot.y, spot.x + texts.width(), spot.y + texts.height()};
        const Box& bounds = diagram_.bounds;
        if (all.left < bounds.left + kMarkMargin / 2 || all.right > bounds.right || all.top < bounds.top ||
            all.bottom > bounds.bottom || !ground_.is_free(all))
            return false;
        for (std::size_t i = 0; i < texts.lines.size(); ++i) {
            const std::string& text = texts.lines[i];
            diagram_.labels.push_back({text,
                                       Label::Role::reference,
                                       onward.name,
                                       {spot.x, spot.y, spot.x + text_width(text), spot.y + kLineHeight},
                                       onward.beside[i],
                                       onward.name});
            spot = texts.is_stacked ? Spot{spot.x, spot.y + kLineHeight}
                                    : Spot{spot.x + text_width(text) + kMarkGap, spot.y};
        }
        ground_.take(all);
        return true;
    }

    Diagram& diagram_;
    FreePlaces ground_;
};

std::string list_of(const model::Circuit& circuit, const std::vector<int>& parts) {
    std::string text;
    for (const int part : parts) text += (text.empty() ? "" : ", ") + circuit.parts[at(part)].id;
    return text;
}

/// One line a point and page, in columns below everything else.
void add_foot(const model::Circuit& circuit, const Whereabouts& whereabouts,
              const std::vector<Onward>& onwards, Diagram& diagram) {
    std::vector<Label> lines;
    const auto add = [&](const std::string& text, const std::string& owner, int page) {
        const auto role = page < 0 ? Label::Role::legend : Label::Role::reference;
        lines.push_back({text, role, owner, {0, 0, text_width(text), kLineHeight}, page, owner});
    };
    add("→ 3: see page 3", "", -1);
    for (const Onward& onward : onwards)
        for (const int page : onward.foot)
            add(onward.name + " " + to_page(page) + ": " +
                    list_of(circuit, whereabouts.parts_from(onward.point, page)),
                onward.name, page);
    int column = 1;
    for (const Label& line : lines) column = std::max(column, line.box.width() + kLineHeight);
    const int columns = std::max(1, (diagram.bounds.width() - 2 * kMarkMargin) / column);
    const int count = static_cast<int>(lines.size());
    const int rows = (count + columns - 1) / columns;
    for (int i = 0; i < count; ++i)
        lines[at(i)].box = moved(lines[at(i)].box, {kMarkMargin + i / rows * column,
                                                    diagram.bounds.bottom + i % rows * kLineHeight});
    diagram.labels.insert(diagram.labels.end(), lines.begin(), lines.end());
    const Box box = extent(diagram);
    diagram.bounds = {0, 0, std::max(diagram.bounds.right, box.right + kMarkMargin),
                      box.bottom + kMarkMargin};
}

}  // namespace

void add_references(const model::Circuit& circuit, const Whereabouts& whereabouts, int number, int map,
                    Page& page) {
    const std::vector<Onward> onwards = onwards_of(circuit, whereabouts, number, map, page.selection);
    if (onwards.empty()) return;
    Marker marker(page.diagram);
    for (const Onward& onward : onwards) marker.mark(onward);
    add_foot(circuit, whereabouts, onwards, page.diagram);
}

}  // namespace halfsplit::view::diagram
