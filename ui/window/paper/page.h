#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/model/circuit.h"
#include "ui/view/diagram/geometry.h"

namespace halfsplit::window {

/// One sheet of a circuit's diagram.
struct Page {
    std::string title;
    view::diagram::Diagram diagram;
    bool is_map = false;  ///< shows again what other pages draw
};

/// A circuit as it is drawn: one page, or, where it includes others, a map of feeds and grounds and one for
/// each of them first to last.
struct DrawnCircuit {
    std::shared_ptr<const model::Circuit> circuit;
    std::vector<Page> pages;
};

DrawnCircuit drawn(std::shared_ptr<const model::Circuit> circuit);

/// Something on a page that can be pointed at.
struct Pick {
    enum class Kind { point, part, wire };
    Kind kind = Kind::part;
    std::string name;
    friend bool operator==(const Pick&, const Pick&) = default;
};

/// What is at a place: a point before the part it is on, a part before a wire. `reach` in grid units.
std::optional<Pick> pick_at(const view::diagram::Diagram& diagram, double x, double y, double reach);

/// Where something is drawn: page and place; on the page preferred, else on the first that is no map. nullopt
/// where it is not drawn.
struct Found {
    int page = 0;
    double x = 0;
    double y = 0;
    Pick pick;
};
std::optional<Found> find_drawn(const DrawnCircuit& drawn, const Pick& pick, int prefer_page);

/// Where it is drawn on the next page after this one, the first following the last.
std::optional<Found> find_further(const DrawnCircuit& drawn, const Pick& pick, int page);

/// Where the reference leads that is written at a place of a page.
std::optional<Found> reference_at(const DrawnCircuit& drawn, int page, double x, double y);
std::optional<Found> target_of(const DrawnCircuit& drawn, const view::diagram::Label& reference);

/// What fits the words: ids first, then titles; at most `most`.
std::vector<Found> search(const DrawnCircuit& drawn, const std::string& words, std::size_t most);

}  // namespace halfsplit::window
