#pragma once

#include "engine/model/law.h"
#include "engine/model/store.h"

namespace halfsplit::simulation {

/// One implicit stage of a step: each state x ends at x = known + beta_s dx/dt, with dx/dt at the stage's
/// end. Every method used here (the trapezoidal rule, backward differences) has that form.
struct Stage {
    double beta_s = 0;  ///< > 0
    double known = 0;
};

/// Which way a rotor turns; standing it is held by its friction.
enum class Turning { backwards = -1, standing = 0, forwards = 1 };

/// What the branch is to the rest of the network at the stage's end. It is linear but for a filament.
///
/// Inductance: x is its current, from -> to. Capacitance: its voltage. Rotor: its back-EMF, in V.
/// FilamentHeat: its resistance as a share of that at rated voltage.
model::Law stage_law(const model::Law& law, const model::Store& store, const Stage& stage, Turning turning);

/// How fast the state changes at the stage's end, once the network has been solved: it ends at x = known +
/// beta_s times that.
double rate_after_stage(const model::Law& law, const model::Store& store, const Stage& stage, Turning turning,
                        double voltage_v, double current_a);

/// The state of a branch that has come to rest with this voltage and current.
double state_at_rest(const model::Law& law, const model::Store& store, double voltage_v, double current_a);

}  // namespace halfsplit::simulation
