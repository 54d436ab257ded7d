#pragma once

#include <string_view>

namespace halfsplit::simulation {

/// What a control unit perceives now. A value that is not finite makes the expression that asks for it an
/// error of evaluation.
class Senses {
  public:
    Senses() = default;
    Senses(const Senses&) = default;
    Senses& operator=(const Senses&) = default;
    virtual ~Senses() = default;

    /// V at the pin, against the unit's ground.
    virtual double in_v(std::string_view pin) const = 0;
    /// Pulses per second at the pin.
    virtual double hz(std::string_view pin) const = 0;
    /// A through the driver.
    virtual double amps(std::string_view driver) const = 0;
};

}  // namespace halfsplit::simulation
