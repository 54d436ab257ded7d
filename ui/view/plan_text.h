#pragma once

#include <string>

#include "engine/diagnosis/plan/plan.h"

namespace halfsplit::view {

/// A plan as one reads it at the vehicle: the test, indented below it each outcome and what to test then or
/// what is left, then what it costs, how good that is, and which faults no test tells apart.
std::string plan_text(const diagnosis::plan::FaultTable& table, const diagnosis::plan::Plan& plan);

/// {"expected_cost","tree","method","lower_bound","proved","groups":[[fault,...],...]}; a tree is
/// {"test","cost", "outcomes":{outcome:tree,...}} or {"faults":[...],"probability"}; groups are those of
/// faults no test tells apart.
std::string plan_json(const diagnosis::plan::FaultTable& table, const diagnosis::plan::Plan& plan);

/// "optimal: 1234 of at most 300000 sets of faults looked at, expected cost between 2.10 and 2.31"
std::string progress_text(const diagnosis::plan::PlanProgress& progress);

}  // namespace halfsplit::view
