#pragma once

#include <vector>

#include "engine/practice/session/observed.h"

namespace halfsplit::practice {

/// Log of how likely somebody who works on a vehicle that answers `suspected` writes down `observed`. `sound`
/// is what a sound vehicle answers. All are of the same action.
double log_likeness(const std::vector<Observed>& observed, const std::vector<Observed>& suspected,
                    const std::vector<Observed>& sound);

}  // namespace halfsplit::practice
