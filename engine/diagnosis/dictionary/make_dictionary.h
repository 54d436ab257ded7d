#pragma once

#include <functional>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/diagnosis/dictionary/dictionary.h"

namespace halfsplit::diagnosis {

struct DictionaryOptions {
    std::vector<std::string> states = {};    ///< ids; empty: all the circuit has
    std::vector<PossibleFault> faults = {};  ///< empty: all it can have (fault_universe)
    int threads = 2;
};

/// Rows done, out of how many in all states together.
struct DictionaryProgress {
    int done = 0;
    int of = 0;
};
using TellDictionary = std::function<void(const DictionaryProgress&)>;

/// The plain way: every fault is there from the start, the state is brought about by simulation::settle(),
/// and the voltmeter goes from point to point, the network solved anew each time. The result does not depend
/// on the number of threads. An error: a state does not exist, or the sound vehicle does not come to it.
tl::expected<Dictionary, Diagnostics> dictionary_anew(const model::Circuit& circuit,
                                                      const DictionaryOptions& options = {},
                                                      const TellDictionary& tell = {});

}  // namespace halfsplit::diagnosis
