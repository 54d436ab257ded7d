#pragma once

#include <string>
#include <string_view>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/diagnosis/plan/fault_table.h"

namespace halfsplit::diagnosis::plan {

/// Faults times tests: a dictionary of 4000 faults and 5000 measurements, larger than a vehicle's; 80 MB once
/// read.
inline constexpr std::size_t kMaxCells = 20'000'000;

/// Faults, and tests: each has a name and more, so that long and thin tables would fill memory before
/// kMaxCells.
inline constexpr std::size_t kMaxFaults = 100'000;
inline constexpr std::size_t kMaxTests = 100'000;

/// Nobody has a test that costs more, and sums stay far from what a number can hold.
inline constexpr double kMaxCost = 1e12;

/// Reads a table from CSV text (engine/base/csv.h): a header `fault,prior,TEST...`, then if tests differ in
/// cost a row `cost,,...`, then a row a fault with what each test shows; equal text is the same outcome.
/// Priors are normalised. Every error is collected, the first hundred of them returned; `file` names the text
/// in them.
tl::expected<FaultTable, Diagnostics> read_fault_table(std::string_view text, const std::string& file);

}  // namespace halfsplit::diagnosis::plan
