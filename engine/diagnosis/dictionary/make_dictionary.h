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
    /// Predicted besides findings_of(), which they are no part of.
    std::vector<Finding> further_findings = {};
    int threads = 2;
    /// In circuits that live, a fault may have changed what happened on the way into a state. Whether it is
    /// settled anew then (Told::exactly) instead of put into what stands (Told::as_it_stands), …
    bool settle_anew = true;
    /// … which is done for all faults or, where there are more than this, for none, whatever the states: a
    /// single circuit has hundreds and takes milliseconds for one, a whole van eight thousand and takes a
    /// quarter of a second.
    int settles_at_most = 2000;
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

/// The same, quickly: networks are built and analysed once, and a fault is what it changes in them. Rows told
/// exactly agree with the plain way to a microvolt; the result does not depend on the number of threads.
tl::expected<Dictionary, Diagnostics> make_dictionary(const model::Circuit& circuit,
                                                      const DictionaryOptions& options = {},
                                                      const TellDictionary& tell = {});

}  // namespace halfsplit::diagnosis
