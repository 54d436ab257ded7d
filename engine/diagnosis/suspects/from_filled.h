#pragma once

#include <vector>

#include "engine/diagnosis/dictionary/dictionary.h"
#include "engine/diagnosis/sheet/read_readings.h"
#include "engine/diagnosis/suspects/readings.h"

namespace halfsplit::diagnosis {

/// What was measured that no dictionary predicts by itself, between points nobody thought of: each once, for
/// DictionaryOptions::further_findings.
std::vector<Finding> further_findings(const model::Circuit& circuit, const std::vector<FilledRow>& rows);

/// The rows as readings, in their order. Throws std::logic_error for one whose state or finding the
/// dictionary does not hold.
std::vector<Reading> readings_of(const model::Circuit& circuit, const Dictionary& dictionary,
                                 const std::vector<FilledRow>& rows);

}  // namespace halfsplit::diagnosis
