#pragma once

#include "engine/instruments/strip.h"
#include "ui/window/frame/frame.h"
#include "ui/window/recorder/chart_view.h"

namespace halfsplit::window {

/// What is where in a chart.
struct ChartPlaces {
    ScreenBox all;
    ScreenBox plot;  ///< within the axes
};

/// Room for what stands around the plot: which channel is which above, volts on the left, amperes on the
/// right where a channel has them, seconds below.
ChartPlaces chart_places(const Frame& frame, const ScreenBox& all, const instruments::Strip& strip);

void draw_chart(const Frame& frame, const ChartPlaces& places, const instruments::Strip& strip,
                const ChartView& view);

}  // namespace halfsplit::window
