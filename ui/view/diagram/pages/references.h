#pragma once

#include "ui/view/diagram/pages/pages.h"
#include "ui/view/diagram/pages/whereabouts.h"

namespace halfsplit::view::diagram {

/// Has the page say where its points go on: beside each of them the page, and at the foot what it leads to
/// there. What is on many pages names the one that feeds it, and the map.
void add_references(const model::Circuit& circuit, const Whereabouts& whereabouts, int number, int map,
                    Page& page);

}  // namespace halfsplit::view::diagram
