#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/model/chart/chart.h"

namespace halfsplit::model::chart {

inline constexpr std::string_view kScxmlNamespace = "http://www.w3.org/2005/07/scxml";

// Behaviour files come from strangers. These bound what reading costs and what one microstep can cost.
inline constexpr int kMaxStates = 1000;  ///< large control units have some dozens
inline constexpr int kMaxDataItems = 500;
inline constexpr int kMaxChartElements = 10'000;  ///< of the whole file
inline constexpr std::size_t kMaxChartBytes = std::size_t{1} << 20U;
/// Longest delay of a <send>, in s: three years.
inline constexpr double kMaxDelayS = 1e8;

/// Reads the text of a behaviour file; `file` is for messages. Every error that can be found is returned.
tl::expected<Chart, Diagnostics> read_chart(std::string_view text, const std::string& file);

}  // namespace halfsplit::model::chart
