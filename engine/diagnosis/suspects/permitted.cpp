#include "engine/diagnosis/suspects/permitted.h"

#include <numeric>
#include <string_view>
#include <vector>

namespace halfsplit::diagnosis {

namespace {

bool is_in_harness(const model::Circuit& circuit, std::string_view point) {
    const auto pin = circuit.find_pin(point);
    return pin && circuit.parts[at(pin->part)].kind->element == "splice";
}

}  // namespace

Permitted all_permitted(const Dictionary& dictionary) {
    Permitted all{std::vector<int>(dictionary.states.size()), std::vector<int>(dictionary.findings.size())};
    std::iota(all.states.begin(), all.states.end(), 0);
    std::iota(all.findings.begin(), all.findings.end(), 0);
    return all;
}

Permitted measurable(const model::Circuit& circuit, const Dictionary& dictionary) {
    Permitted permitted = all_permitted(dictionary);
    std::erase_if(permitted.findings, [&](int index) {
        const Finding& finding = dictionary.findings[at(index)];
        return finding.kind == Finding::Kind::voltage &&
               (is_in_harness(circuit, finding.at) || is_in_harness(circuit, finding.against));
    });
    return permitted;
}

}  // namespace halfsplit::diagnosis
