#pragma once

#include <string>
#include <vector>

#include "engine/diagnosis/next_test/consultation.h"
#include "engine/diagnosis/plan/fault_table.h"

namespace halfsplit::view {

/// A circuit's dictionary as a table for planning, see table_of_tests(), with tests and outcomes named as
/// people name them. `states`: the dictionary's, rising.
diagnosis::plan::FaultTable named_table_of_tests(const diagnosis::Consultation& consultation,
                                                 const std::vector<int>& states);

/// CSV as plan/read_fault_table.h reads it back: header, costs, a row a fault. Of a whole vehicle these are
/// hundreds of megabytes, so there is no Table of it.
std::string test_table_csv(const diagnosis::plan::FaultTable& faults);

}  // namespace halfsplit::view
