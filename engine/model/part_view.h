#pragma once

#include <map>
#include <span>
#include <string>
#include <string_view>

#include "engine/model/circuit.h"

namespace halfsplit::model {

using Quantities = std::map<std::string, double, std::less<>>;

/// A part with the values that count now: the author's, as faults, tolerances and the world have changed
/// them. Asking for a name the kind does not declare is a std::logic_error: a slip in that kind's own file.
class PartView {
  public:
    PartView(const Part& part, std::span<const double> numbers, const Quantities& quantities,
             double nominal_v);

    const Part& part() const { return part_; }
    double number(std::string_view name) const;
    bool has(std::string_view name) const;  ///< false where the number was neither given nor assumed
    std::string_view word(std::string_view name) const;
    int pin(std::string_view id) const;
    int pin_count() const { return static_cast<int>(part_.pins.size()); }
    int condition(std::string_view id) const;  ///< index of a position or condition
    /// The value of the world's quantity `id`, or `otherwise` where the circuit has none of that name.
    double quantity(std::string_view id, double otherwise) const;
    double nominal_v() const { return nominal_v_; }

  private:
    const Part& part_;
    std::span<const double> numbers_;
    const Quantities& quantities_;
    double nominal_v_;
};

}  // namespace halfsplit::model
