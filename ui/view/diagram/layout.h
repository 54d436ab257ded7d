#pragma once

#include "ui/view/diagram/geometry.h"
#include "ui/view/diagram/selection.h"

namespace halfsplit::view::diagram {

struct LayoutOptions {
    /// How wide a band may become before a new one is begun, in slots of 9 mm. 30 of them fill a landscape A4 sheet.
    int band_slots = 30;
};

/// Supply at the top, ground at the bottom, each column a current path. The same circuit gives the same diagram.
Diagram lay_out(const model::Circuit& circuit, const Selection& selection, const LayoutOptions& options = {});
Diagram lay_out(const model::Circuit& circuit);

}  // namespace halfsplit::view::diagram
