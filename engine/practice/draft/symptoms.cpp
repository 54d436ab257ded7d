#include "engine/practice/draft/symptoms.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/sign.h"

namespace halfsplit::practice {

using diagnosis::Dictionary;
using diagnosis::Finding;

namespace {

bool is_seen_by_customers(const model::Circuit& circuit, const Finding& finding) {
    if (finding.kind != Finding::Kind::sign) return false;
    const model::Part* part = circuit.find_part(finding.at);
    return part == nullptr || !diagnosis::is_fuse(*part);
}

Presentation presentation_in(const model::Circuit& circuit, const Dictionary& dictionary, int fault,
                             int state) {
    Presentation presentation{state, {}};
    for (int finding = 0; finding < static_cast<int>(dictionary.findings.size()); ++finding) {
        if (!is_seen_by_customers(circuit, dictionary.findings[at(finding)])) continue;
        const double value = dictionary.value(state, fault + 1, finding);
        if (std::isnan(value) || value == dictionary.value(state, 0, finding)) continue;
        presentation.readings.push_back({state, finding, value});
    }
    return presentation;
}

}  // namespace

std::vector<Presentation> presentations_of(const model::Circuit& circuit, const Dictionary& dictionary,
                                           int fault) {
    std::vector<Presentation> all;
    for (int state = 0; state < static_cast<int>(dictionary.states.size()); ++state) {
        Presentation presentation = presentation_in(circuit, dictionary, fault, state);
        if (!presentation.readings.empty()) all.push_back(std::move(presentation));
    }
    std::ranges::stable_sort(all, [](const Presentation& a, const Presentation& b) {
        return a.readings.size() > b.readings.size();
    });
    return all;
}

}  // namespace halfsplit::practice
