#pragma once

#include <limits>
#include <optional>
#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/diagnosis/dictionary/finding_places.h"
#include "engine/diagnosis/dictionary/waking.h"
#include "engine/network/fault_change.h"
#include "engine/simulation/settle.h"

namespace halfsplit::diagnosis {

/// The sound vehicle on its way into a state: the networks it comes to rest in, one after the other. A
/// circuit that lives has only the last, as the course of time has left it.
struct StateBase {
    struct Stage {
        network::Situation situation;
        network::Network network;
    };
    bool lives = false;
    /// Of a circuit that lives: fuses that take longer to melt hold. Any other is looked at for ever.
    double lasts_s = std::numeric_limits<double>::infinity();
    std::vector<Stage> stages;
    std::vector<int> conditions;        ///< that the first stage starts from
    FindingPlaces places;               ///< in the last one
    std::optional<Waking> waking = {};  ///< of a circuit that lives

    static tl::expected<StateBase, Diagnostics> of(const model::Circuit& circuit,
                                                   const model::OperatingState& state,
                                                   const std::vector<Finding>& findings);
};

/// What a fault changes in each stage; nullopt where a network has to be built anew.
using StagedChange = std::optional<std::vector<network::FaultChange>>;

/// One per fault.
std::vector<StagedChange> changes_of(const model::Circuit& circuit, const StateBase& base,
                                     const std::vector<PossibleFault>& faults, int threads);

/// What two faults change together in each stage, in the same sense.
StagedChange together(const StagedChange& one, const StagedChange& other);

}  // namespace halfsplit::diagnosis
