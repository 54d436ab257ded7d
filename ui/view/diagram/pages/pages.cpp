#include "ui/view/diagram/pages/pages.h"

#include <utility>

#include "engine/base/index.h"
#include "ui/view/diagram/pages/feed_map.h"
#include "ui/view/diagram/pages/page_cut.h"
#include "ui/view/diagram/pages/references.h"
#include "ui/view/diagram/pages/whereabouts.h"

namespace halfsplit::view::diagram {

namespace {

constexpr const char* kMapTitle = "Feeds and grounds";

/// "3 Horn (Body electrics of a camper van)".
std::string heading_of(const model::Circuit& circuit, const std::string& title, int page) {
    return (page < 0 ? "" : page_number(page) + "  ") + title + " (" + circuit.title + ")";
}

Page map_page(const model::Circuit& circuit, const Heights& heights, const Whereabouts& whereabouts,
              int number, const LayoutOptions& options) {
    LayoutOptions own = options;
    own.title = heading_of(circuit, kMapTitle, number);
    return {kMapTitle, {}, feed_map(circuit, heights, whereabouts, number, own), true};
}

/// A circuit cut into pages, before any of them is drawn. The map is the first where there are several.
struct Whole {
    Heights heights;
    std::vector<PageCut> cuts;
    Whereabouts whereabouts;

    explicit Whole(const model::Circuit& circuit)
        : heights(circuit, everything(circuit)),
          cuts(cut_into_pages(circuit, heights)),
          whereabouts(circuit, heights, cuts, cuts.size() > 1 ? 1 : 0) {}

    int map_number() const { return cuts.size() > 1 ? 0 : -1; }
};

}  // namespace

std::vector<Page> pages_of(const model::Circuit& circuit, const LayoutOptions& options) {
    Whole whole(circuit);
    std::vector<Page> pages;
    if (whole.cuts.size() == 1) {
        Selection& selection = whole.cuts.front().selection;
        Diagram diagram = lay_out(circuit, selection, whole.heights, options);
        pages.push_back({circuit.title, std::move(selection), std::move(diagram)});
        return pages;
    }
    pages.push_back(map_page(circuit, whole.heights, whole.whereabouts, whole.map_number(), options));
    for (PageCut& cut : whole.cuts) {
        const int number = static_cast<int>(pages.size());
        LayoutOptions own = options;
        own.title = heading_of(circuit, cut.title, number);
        Page page{cut.title, std::move(cut.selection), {}};
        page.diagram = lay_out(circuit, page.selection, whole.heights, own);
        add_references(circuit, whole.whereabouts, number, whole.map_number(), page);
        pages.push_back(std::move(page));
    }
    return pages;
}

Page map_of(const model::Circuit& circuit, const LayoutOptions& options) {
    const Whole whole(circuit);
    return map_page(circuit, whole.heights, whole.whereabouts, whole.map_number(), options);
}

std::vector<Diagram> map_sheets_of(const model::Circuit& circuit, const LayoutOptions& options) {
    const Whole whole(circuit);
    LayoutOptions own = options;
    own.title = heading_of(circuit, kMapTitle, whole.map_number());
    return feed_map_sheets(circuit, whole.heights, whole.whereabouts, whole.map_number(), own);
}

}  // namespace halfsplit::view::diagram
