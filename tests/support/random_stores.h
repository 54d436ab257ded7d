#pragma once

#include <cstdint>

#include "tests/support/random_network.h"
#include "tests/support/storing_network.h"

namespace halfsplit::test {

struct StoresKind {
    double coils = 0.03;       ///< share of all branches
    double motors = 0.02;      ///< share of all branches
    double capacitors = 0.03;  ///< share of all branches, in addition to them
    bool filaments_warm_up = true;
    double toggles_every_s = 0.1;
    double until_s = 2;
};

/// A body_electrics network (without motors of its own) in time: some loads become coils and motors, modules
/// get capacitors, filaments warm up from cold, and at regular times a wire of a few milliohms opens or
/// closes again. Motors drive fans, whose load at a standstill is next to nothing, so that no friction has to
/// hold them. Everything begins empty, standing, cold.
StoringNetwork with_stores(std::uint64_t start, const RandomNetwork& network, const StoresKind& kind);

}  // namespace halfsplit::test
