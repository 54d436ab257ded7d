#pragma once

#include <variant>

#include "engine/simulation/stage.h"

/// What happens at a moment in the course of time. Deeds are found first, all from the same view of the
/// network, and then done together.
namespace halfsplit::simulation {

/// A part, or an output of a control unit, goes to a condition.
struct Switch {
    int slot = 0;
    int condition = 0;
};
/// A trigger has seen enough: it acts when its delay is over.
struct StartWaiting {
    int trigger = 0;
    int condition = 0;
    double due_s = 0;
};
/// It is so no longer.
struct StopWaiting {
    int trigger = 0;
};
/// A rotor breaks loose, or comes to a stop.
struct Turn {
    int rotor = 0;  ///< branch
    Turning turning = Turning::standing;
};
/// What a rotor moves is put somewhere: at its stop, or a round further.
struct PutWay {
    int number = 0;  ///< Integrator's
    double share = 0;
};
/// An oscillator's time has come, or it begins to count, or has nothing to count for.
struct TakeBeat {
    int oscillator = 0;
};
struct StartBeat {
    int oscillator = 0;
};
struct StopBeat {
    int oscillator = 0;
};
/// A control unit comes to power, or loses it.
struct UnitPower {
    int unit = 0;
    bool has_power = false;
};
/// A level at one of its inputs has crossed its threshold.
struct InputTurns {
    int unit = 0;
    int input = 0;
    bool high = false;
};
/// Its chart has something to do.
struct UnitActs {
    int unit = 0;
};
/// One of its drivers carries more than it can.
struct DriverTrips {
    int unit = 0;
    int driver = 0;
};
/// A driver that is on for a share of the time turns on or off.
struct TakeDuty {
    int unit = 0;
    int duty = 0;
};
/// The next thing to be set is due, or the quantities that ramp are to be looked at.
struct CarryOutSet {};
struct LookAtWorld {};

using Deed = std::variant<Switch, StartWaiting, StopWaiting, Turn, PutWay, TakeBeat, StartBeat, StopBeat,
                          UnitPower, InputTurns, UnitActs, DriverTrips, TakeDuty, CarryOutSet, LookAtWorld>;

}  // namespace halfsplit::simulation
