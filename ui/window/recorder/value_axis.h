#pragma once

#include "engine/instruments/strip.h"
#include "ui/window/recorder/chart_view.h"

namespace halfsplit::window {

/// What a chart goes from and to in volts or amperes, at whole steps, with 0 in it.
struct ValueAxis {
    double least = 0;
    double most = 1;
    double step = 0.5;
    double share_of(double value) const { return (value - least) / (most - least); }
};

/// Fits all voltages that are seen, or all currents.
ValueAxis axis_for(const instruments::Strip& strip, const ChartView& view, bool of_currents, int steps);

}  // namespace halfsplit::window
