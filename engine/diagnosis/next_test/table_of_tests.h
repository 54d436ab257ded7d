#pragma once

#include <functional>
#include <string>

#include "engine/diagnosis/next_test/effort.h"
#include "engine/diagnosis/next_test/outcomes.h"
#include "engine/diagnosis/plan/fault_table.h"
#include "engine/diagnosis/suspects/hypotheses.h"
#include "engine/diagnosis/suspects/permitted.h"

namespace halfsplit::diagnosis {

/// How a test and what it may show are called in a table.
struct TestNames {
    std::function<std::string(const Test&)> test;
    std::function<std::string(const Test&, const Outcome&)> outcome;
};

/// A dictionary as plans are made for (plan/fault_table.h): single faults and the sound vehicle, "none", with
/// their shares, and what each test shows with each, readings that limits do not tell apart being one
/// outcome (outcomes.h). A test costs its minutes with nothing opened yet. Left out are faults that nothing
/// tells from the sound vehicle, tests that tell nothing, and of tests that part the faults alike all but the
/// cheapest.
plan::FaultTable table_of_tests(const Hypotheses& hypotheses, const Workshop& workshop,
                                const Permitted& permitted, const TestNames& names);

}  // namespace halfsplit::diagnosis
