#include "ui/view/test_table.h"

#include "engine/base/number.h"
#include "engine/diagnosis/next_test/table_of_tests.h"
#include "ui/view/finding_text.h"

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

Table test_table(const diagnosis::plan::FaultTable& faults) {
    Table table;
    table.columns = {{"fault"}, {"prior"}};
    std::vector<std::string> costs{"cost", ""};
    for (const auto& test : faults.tests) {
        table.columns.push_back({test.name});
        costs.push_back(number_text(test.cost));
    }
    table.rows.push_back(std::move(costs));
    for (int fault = 0; fault < static_cast<int>(faults.faults.size()); ++fault) {
        std::vector<std::string> row{faults.faults[at(fault)].name,
                                     number_text(faults.faults[at(fault)].prior)};
        for (int test = 0; test < static_cast<int>(faults.tests.size()); ++test)
            row.push_back(faults.tests[at(test)].outcomes[at(faults.outcome(fault, test))]);
        table.rows.push_back(std::move(row));
    }
    return table;
}

}  // namespace halfsplit::view
