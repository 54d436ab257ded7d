#pragma once

#include <vector>

#include "engine/xml/writer.h"
#include "ui/view/diagram/selection.h"

namespace halfsplit::view {

/// One sheet of A4 with a part of the diagram on it.
struct DiagramPage {
    xml::WrittenElement picture;  ///< an SVG, as large as the page takes it, at most at its natural size
    bool across = false;          ///< the page lies across
    double height_mm = 0;         ///< of the picture
};

/// Room for a picture on a page that stands upright; across, the two change places. A4 less margins and a
/// line of heading.
inline constexpr double kPictureWidthMm = 186;
inline constexpr double kPictureHeightMm = 262;

/// More symbols than this are drawn only as a whole vehicle, by its circuits.
inline constexpr std::size_t kMostPartsDrawn = 150;

/// The diagram on as few pages as leave its letters legible; a whole vehicle's map of feeds and grounds and
/// then its circuits. None of a selection of more than kMostPartsDrawn parts.
std::vector<DiagramPage> diagram_pages(const model::Circuit& circuit, const diagram::Selection& drawn);

}  // namespace halfsplit::view
