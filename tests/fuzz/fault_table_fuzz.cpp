#include <cstddef>
#include <cstdint>
#include <limits>
#include <string_view>

#include "engine/diagnosis/plan/plan.h"
#include "engine/diagnosis/plan/read_fault_table.h"

namespace {

using halfsplit::diagnosis::plan::FaultTable;
using halfsplit::diagnosis::plan::Method;

/// Whatever is read without error makes sense and can be planned.
void check(const FaultTable& table) {
    double sum = 0;
    for (const auto& fault : table.faults) sum += fault.prior;
    if (!(sum > 1 - 1e-9 && sum < 1 + 1e-9)) __builtin_trap();
    if (table.cells.size() != table.faults.size() * table.tests.size()) __builtin_trap();
    constexpr int kBudget = 100;  // a plan must be done within the time for one input
    constexpr double kRounding = 1 + 1e-9;
    double dearer = std::numeric_limits<double>::infinity();
    for (const Method method : {Method::one_step, Method::rollout, Method::optimal}) {
        const auto plan = make_plan(table, method, kBudget);  // throws where a fault does not find its end
        if (!(plan.lower_bound <= plan.expected_cost)) __builtin_trap();
        if (!(plan.expected_cost <= dearer * kRounding)) __builtin_trap();
        dearer = plan.expected_cost;
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view input(reinterpret_cast<const char*>(data), size);
    const auto table = halfsplit::diagnosis::plan::read_fault_table(input, "a.csv");
    if (table)
        check(*table);
    else if (table.error().empty())
        __builtin_trap();
    return 0;
}
