#pragma once

#include <string>
#include <vector>

#include "engine/diagnosis/dictionary/sign.h"
#include "engine/practice/session/session.h"
#include "ui/window/paper/page.h"
#include "ui/window/practise/seen.h"

namespace halfsplit::window {

/// Something a hand can do with what it has.
struct Possible {
    std::string label;  ///< without the minutes
    practice::Action action;
};

/// What can be done with a part, a point or a wire. Jumper leads and new fuses need more to be said and are
/// not among it.
std::vector<Possible> possible_with(const model::Circuit& circuit,
                                    const std::vector<diagnosis::SignSource>& sources, const Seen& seen,
                                    const Pick& pick);

/// The part that is picked, or that the point is on; nullptr of a wire.
const model::Part* part_of(const model::Circuit& circuit, const Pick& pick);

/// Minutes it takes as things stand, as far as that can be said before: what goes by in the vehicle is added.
double minutes_for(const practice::Session& session, const practice::Action& action);

/// "Pull it out (0.5 min)"; without minutes where it takes none.
std::string with_minutes(const std::string& label, double minutes);

}  // namespace halfsplit::window
