#pragma once

#include <string>
#include <vector>

#include "engine/xml/writer.h"

namespace halfsplit::view {

/// One point of a plot, or one step of a staircase.
struct PlotPoint {
    double x = 0;
    double y = 0;
    bool is_hollow = false;  ///< drawn as a ring instead of a disc: told apart without colour
};

/// A plot with two axes from 0 on, as SVG. Whoever does not see it reads `caption`.
struct Plot {
    std::string caption;
    std::string x_title;
    std::string y_title;
    std::vector<PlotPoint> points;
    bool is_staircase = false;  ///< joined by steps: a value holds until the next one
    bool has_diagonal = false;  ///< the line y = x
};

/// A figure with its caption.
xml::WrittenElement figure_of(const Plot& plot);

/// Bars from 0 to 1, one a row, each with its label and what stands at its end.
struct Bar {
    std::string label;
    double share = 0;
    std::string end;
};
xml::WrittenElement bars_of(const std::string& caption, const std::vector<Bar>& bars);

}  // namespace halfsplit::view
