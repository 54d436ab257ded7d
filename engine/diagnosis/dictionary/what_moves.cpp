#include "engine/diagnosis/dictionary/what_moves.h"

#include <limits>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/sign.h"

namespace halfsplit::diagnosis {

WhatMoves::WhatMoves(const model::Circuit& circuit, const Dictionary& dictionary, int state) {
    const std::vector<SignSource> sources = sign_sources(circuit);
    for (int i = 0; i < static_cast<int>(dictionary.findings.size()); ++i) {
        const Finding& finding = dictionary.findings[at(i)];
        const SignSource* source =
            finding.kind == Finding::Kind::sign ? find_sign_source(sources, finding.at) : nullptr;
        if (dictionary.does_pulse(state, i) || (source != nullptr && is_position(source->shows)))
            moving_.push_back(i);
    }
}

void WhatMoves::forget_in(std::span<float> row) const {
    for (const int finding : moving_) row[at(finding)] = std::numeric_limits<float>::quiet_NaN();
}

}  // namespace halfsplit::diagnosis
