#pragma once

#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/diagnosis/dictionary/dictionary.h"
#include "engine/diagnosis/suspects/assumptions.h"

namespace halfsplit::diagnosis {

/// How far sound vehicles differ: a standard deviation per state and finding, in V or A, 0 for signs. One
/// table of states by findings, in the order of a dictionary's.
struct Spread {
    int findings = 0;
    std::vector<float> sigma;  ///< states.size() lists of findings

    double of(int state, int finding) const {
        return static_cast<double>(sigma[at(state) * at(findings) + at(finding)]);
    }
};

/// The same everywhere: for dictionaries that come from no circuit.
Spread equal_spread(const Dictionary& dictionary, double sigma);

/// From the limits of the sound vehicle (limits/limits.h); currents by the limits of the drop along their
/// wire, but no less than the share assumed. Errors: a state that is not there or that the circuit does not
/// come to.
tl::expected<Spread, Diagnostics> spread_of(const model::Circuit& circuit, const Dictionary& dictionary,
                                            const Assumptions& assumptions);

}  // namespace halfsplit::diagnosis
