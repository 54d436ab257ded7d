#pragma once

#include "ui/view/diagram/layout.h"
#include "ui/view/diagram/pages/whereabouts.h"

namespace halfsplit::view::diagram {

/// Feeds and grounds on one sheet: each point of distribution with the protections on it and what hangs on
/// those, then the ground points with what hangs on them, in columns. Loads are by the page they are on.
/// `number`: the page this is.
Diagram feed_map(const model::Circuit& circuit, const Heights& heights, const Whereabouts& whereabouts,
                 int number, const LayoutOptions& options);

/// The same on as many sheets as it takes at its natural size.
std::vector<Diagram> feed_map_sheets(const model::Circuit& circuit, const Heights& heights,
                                     const Whereabouts& whereabouts, int number,
                                     const LayoutOptions& options);

}  // namespace halfsplit::view::diagram
