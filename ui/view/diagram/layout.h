#pragma once

#include <string>

#include "ui/view/diagram/geometry.h"
#include "ui/view/diagram/heights.h"
#include "ui/view/diagram/selection.h"

namespace halfsplit::view::diagram {

/// The paper a diagram is wrapped for: it may become larger, but what fits is arranged to fit.
struct LayoutOptions {
    int page_width_mm = 277;  ///< A4 across, less 10 mm of margin
    int page_height_mm = 190;
    std::string title = {};  ///< above it; "" for the circuit's
};

/// Supply at the top, ground at the bottom, each column a current path. The same circuit gives the same
/// diagram.
Diagram lay_out(const model::Circuit& circuit, const Selection& selection, const LayoutOptions& options = {});
Diagram lay_out(const model::Circuit& circuit);
/// With heights of more than is drawn: a page of a circuit whose supply is on another.
Diagram lay_out(const model::Circuit& circuit, const Selection& selection, const Heights& heights,
                const LayoutOptions& options);

/// How much larger it would be if it filled the page, across or upright.
double fit_scale(const Diagram& diagram, const LayoutOptions& options = {});

/// At most 1: how large it can be printed to fit the page, across or upright. 1 too where letters would come
/// out less than 2 mm tall: then it wants larger paper, or a sheet a band.
double print_scale(const Diagram& diagram, const LayoutOptions& options = {});

}  // namespace halfsplit::view::diagram
