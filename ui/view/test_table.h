#pragma once

#include "engine/diagnosis/next_test/consultation.h"
#include "engine/diagnosis/plan/fault_table.h"
#include "ui/view/table.h"

namespace halfsplit::view {

/// A circuit's dictionary as a table for planning, see table_of_tests(), with tests and outcomes named as
/// people name them. `states`: the dictionary's, rising.
diagnosis::plan::FaultTable named_table_of_tests(const diagnosis::Consultation& consultation,
                                                 const std::vector<int>& states);

/// As it is written to CSV and read back by plan/read_fault_table.h: header, costs, a row a fault.
Table test_table(const diagnosis::plan::FaultTable& faults);

}  // namespace halfsplit::view
