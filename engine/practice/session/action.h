#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"

namespace halfsplit::practice {

/// What somebody at a vehicle can do.
enum class Verb {
    state,    ///< bring it to one of the circuit's operating states
    set,      ///< a switch, a door, a quantity of the world; stays so
    press,    ///< the same, and let go again
    wait,     ///< let time pass
    look,     ///< look and listen: at one thing, or all round
    measure,  ///< bring an instrument to it
    record,   ///< watch voltages and currents for a while
    pull,     ///< a fuse or relay out of its socket
    push,     ///< and back in again
    unplug,   ///< a plug
    plug,     ///< and on again
    bridge,   ///< two points with a jumper lead that stays on
    unbridge,
    swap,     ///< two relays of one kind
    fit,      ///< a new fuse of some rating
    inspect,  ///< take something in hand and look closely, on the bench where need be
    replace,  ///< a part by a new one
    mend,     ///< a wire, a plug contact, a ground
    suspect,  ///< write down what one thinks
    strike,   ///< out again what one thought
    hint,     ///< ask for the next hint
    done      ///< hand the vehicle back
};

struct VerbSpec {
    Verb verb;
    std::string_view word;
    std::string_view arguments;  ///< as help shows them
    int least = 0;               ///< arguments, at least and at most
    int most = 0;
    std::string_view text;
};

/// All verbs, in the order of the help.
std::span<const VerbSpec> verbs();
const VerbSpec& spec_of(Verb verb);

/// Whether it is something one does at the vehicle, and not with pencil and paper or to the customer.
bool is_done_to_vehicle(Verb verb);

/// One thing that is done. The text of it is the same at the prompt and in a session's log.
struct Action {
    Verb verb = Verb::look;
    std::vector<std::string> arguments;

    friend bool operator==(const Action&, const Action&) = default;
};

/// Reads "measure voltmeter K2.85 body", "set S1=run". The message says what was expected.
tl::expected<Action, std::string> read_action(std::string_view text);

/// Canonical: read_action() of it is the same action.
std::string action_text(const Action& action);

}  // namespace halfsplit::practice
