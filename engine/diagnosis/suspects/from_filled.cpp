#include "engine/diagnosis/suspects/from_filled.h"

#include <algorithm>
#include <stdexcept>

namespace halfsplit::diagnosis {

namespace {

/// Where one has to be for it makes no other reading of it.
auto find_same(const std::vector<Finding>& findings, const Finding& wanted) {
    return std::ranges::find_if(findings, [&wanted](const Finding& each) {
        return each.kind == wanted.kind && each.at == wanted.at && each.against == wanted.against;
    });
}

template <class List, class Place>
int index_in(const List& list, Place place) {
    if (place == list.end()) throw std::logic_error("a reading of something the dictionary does not hold");
    return static_cast<int>(place - list.begin());
}

}  // namespace

std::vector<Finding> further_findings(const model::Circuit& circuit, const std::vector<FilledRow>& rows) {
    const std::vector<Finding> known = findings_of(circuit);
    std::vector<Finding> further;
    for (const FilledRow& row : rows)
        if (find_same(known, row.finding) == known.end() && find_same(further, row.finding) == further.end())
            further.push_back(row.finding);
    return further;
}

std::vector<Reading> readings_of(const model::Circuit& circuit, const Dictionary& dictionary,
                                 const std::vector<FilledRow>& rows) {
    std::vector<Reading> readings;
    readings.reserve(rows.size());
    for (const FilledRow& row : rows)
        readings.push_back({index_in(dictionary.states,
                                     std::ranges::find(dictionary.states, circuit.states[at(row.state)].id)),
                            index_in(dictionary.findings, find_same(dictionary.findings, row.finding)),
                            row.value});
    return readings;
}

}  // namespace halfsplit::diagnosis
