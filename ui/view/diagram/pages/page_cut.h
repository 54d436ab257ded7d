#pragma once

#include <string>
#include <vector>

#include "ui/view/diagram/heights.h"
#include "ui/view/diagram/selection.h"

namespace halfsplit::view::diagram {

/// What goes on one page: its own wires, no other page's, and whatever they end on.
struct PageCut {
    std::string title;
    Selection selection;
};

/// One page a circuit that is included, named as its file says; the circuit's own wires on as many pages as
/// they fill, named by the fuses on them. Whatever the paper: page 3 is page 3 everywhere. One page only
/// where nothing is included or all of it is small.
std::vector<PageCut> cut_into_pages(const model::Circuit& circuit, const Heights& heights);

}  // namespace halfsplit::view::diagram
