#pragma once

#include <string>
#include <vector>

#include "ui/view/diagram/geometry.h"
#include "ui/view/diagram/layout.h"

namespace halfsplit::view::diagram {

/// One sheet of a circuit's diagram.
struct Page {
    std::string title;
    Selection selection;
    Diagram diagram;
    bool is_map = false;  ///< feeds and grounds of all pages: shows again what is drawn on others
};

/// A whole circuit: one page, or for one that includes others a map of its feeds and grounds and a page for
/// each of them. Every wire is on exactly one page; what goes on elsewhere says where, both in the drawing
/// ("→ 3") and, with the parts it leads to, at the foot.
std::vector<Page> pages_of(const model::Circuit& circuit, const LayoutOptions& options = {});

/// The map alone, on as many sheets of paper as it takes.
std::vector<Diagram> map_sheets_of(const model::Circuit& circuit, const LayoutOptions& options);

/// The map alone, of any circuit, in one.
Page map_of(const model::Circuit& circuit, const LayoutOptions& options = {});

}  // namespace halfsplit::view::diagram
