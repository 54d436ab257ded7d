#pragma once

#include <algorithm>
#include <cstddef>

#include "engine/diagnosis/dictionary/share_out.h"
#include "engine/diagnosis/suspects/hypotheses.h"

namespace halfsplit::diagnosis {

/// Rows that make up so many findings, settling anew taking the longer the larger a circuit is; but one for
/// each thread.
inline std::size_t rows_of(const Hypotheses& hypotheses, std::size_t findings) {
    return std::max<std::size_t>(findings / hypotheses.dictionary().findings.size(), kThreadsBetweenReadings);
}

}  // namespace halfsplit::diagnosis
