#pragma once

#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>

#include "engine/model/circuit.h"

namespace halfsplit::model {

using Quantities = std::map<std::string, double, std::less<>>;
/// What a part suffers from beside changed numbers (part_kind.h: Ailment): kind of fault -> its value.
using Ailments = std::map<std::string, double, std::less<>>;

/// A part with the values that count now: the author's, as faults, tolerances and the world have changed
/// them. Asking for a name the kind does not declare is a std::logic_error: a slip in that kind's own file.
class PartView {
  public:
    PartView(const Part& part, std::span<const double> numbers, const Quantities& quantities,
             double nominal_v, Ailments ailments = {});

    const Part& part() const { return part_; }
    double number(std::string_view name) const;
    double authored(std::string_view name) const;  ///< whatever ails the part
    bool has(std::string_view name) const;         ///< false where the number was neither given nor assumed
    std::string_view word(std::string_view name) const;
    int pin(std::string_view id) const;
    int pin_count() const { return static_cast<int>(part_.pins.size()); }
    int condition(std::string_view id) const;  ///< index of a position or condition
    /// The value of the world's quantity `id`, or `otherwise` where the circuit has none of that name.
    double quantity(std::string_view id, double otherwise) const;
    /// Which quantities were asked for so far: whatever depends on them has to be asked again when they
    /// change.
    const std::set<std::string, std::less<>>& felt() const { return felt_; }
    double nominal_v() const { return nominal_v_; }
    /// The value of the fault of that kind, nullopt where the part does not have it.
    std::optional<double> ailment(std::string_view kind) const;

  private:
    const Part& part_;
    std::span<const double> numbers_;
    const Quantities& quantities_;
    double nominal_v_;
    Ailments ailments_;
    mutable std::set<std::string, std::less<>> felt_;
};

}  // namespace halfsplit::model
