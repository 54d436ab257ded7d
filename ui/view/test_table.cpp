#include "ui/view/test_table.h"

#include <string>
#include <vector>

#include "engine/base/number.h"
#include "engine/diagnosis/next_test/table_of_tests.h"
#include "ui/view/finding_text.h"
#include "ui/view/table.h"

namespace halfsplit::view {

diagnosis::plan::FaultTable named_table_of_tests(const diagnosis::Consultation& consultation,
                                                 const std::vector<int>& states) {
    const diagnosis::Dictionary& dictionary = consultation.dictionary();
    const diagnosis::TestNames names{[&](const diagnosis::Test& test) { return test_name(dictionary, test); },
                                     [&](const diagnosis::Test& test, const diagnosis::Outcome& outcome) {
                                         return outcome_text(consultation.circuit(),
                                                             dictionary.findings[at(test.finding)],
                                                             outcome.low, outcome.high);
                                     }};
    return table_of_tests(consultation.hypotheses(), consultation.workshop(),
                          {states, consultation.permitted().findings}, names);
}

std::string test_table_csv(const diagnosis::plan::FaultTable& faults) {
    std::string text = "fault,prior";
    std::string costs = "cost,";
    std::vector<std::vector<std::string>> cells;  // one list of outcomes per test
    for (const auto& test : faults.tests) {
        text += "," + csv_cell(test.name);
        costs += "," + csv_cell(number_text(test.cost));
        cells.emplace_back();
        for (const std::string& outcome : test.outcomes) cells.back().push_back("," + csv_cell(outcome));
    }
    text += "\n" + costs + "\n";
    for (int fault = 0; fault < static_cast<int>(faults.faults.size()); ++fault) {
        const auto& [name, prior] = faults.faults[at(fault)];
        text += csv_cell(name) + "," + csv_cell(number_text(prior));
        for (int test = 0; test < static_cast<int>(faults.tests.size()); ++test)
            text += cells[at(test)][at(faults.outcome(fault, test))];
        text += "\n";
    }
    return text;
}

}  // namespace halfsplit::view
