#include "engine/diagnosis/suspects/from_filled.h"

#include <algorithm>
#include <stdexcept>

namespace halfsplit::diagnosis {

namespace {

bool holds(const std::vector<Finding>& findings, const Finding& wanted) {
    return std::ranges::any_of(findings,
                               [&wanted](const Finding& each) { return is_same_finding(each, wanted); });
}

int known(int index) {
    if (index < 0) throw std::logic_error("a reading of something the dictionary does not hold");
    return index;
}

}  // namespace

std::vector<Finding> further_findings(const model::Circuit& circuit, const std::vector<FilledRow>& rows) {
    const std::vector<Finding> offered = findings_of(circuit);
    std::vector<Finding> further;
    for (const FilledRow& row : rows)
        if (!holds(offered, row.finding) && !holds(further, row.finding)) further.push_back(row.finding);
    return further;
}

std::vector<Reading> readings_of(const model::Circuit& circuit, const Dictionary& dictionary,
                                 const std::vector<FilledRow>& rows) {
    std::vector<Reading> readings;
    readings.reserve(rows.size());
    for (const FilledRow& row : rows)
        readings.push_back({known(dictionary.index_of_state(circuit.states[at(row.state)].id)),
                            known(dictionary.index_of_finding(row.finding)), row.value, row.is_complaint});
    return readings;
}

}  // namespace halfsplit::diagnosis
