#pragma once

#include <vector>

#include "engine/model/part_kind.h"

/// The faults that many kinds share, so that "open" or "drift" means the same everywhere.
///
/// All rates in the declarations are relative and from memory: 1 is an ordinary fault of a part that moves or
/// carries load, bulbs and grounds lie above it, electronics and coils well below, and a single plug contact,
/// of which a vehicle has very many, at a few tenths.
namespace halfsplit::model::kinds {

/// Where a fault sits, how often it comes and what it looks like.
struct FaultNote {
    double rate = 1;
    std::string_view text;
    std::string_view where = {};  ///< FaultSpec::element
};

/// The element carries nothing.
FaultSpec open_fault(std::string_view element, const FaultNote& note);

/// The element is bridged by a few hundredths of an ohm.
FaultSpec short_fault(std::string_view element, const FaultNote& note);

/// A resistance of `ohm` comes in series with the element.
FaultSpec series_fault(std::string_view kind, std::string_view element, double ohm, const FaultNote& note);

/// The number is multiplied by `factor`.
FaultSpec scale_fault(std::string_view kind, std::string_view number, double factor, const FaultNote& note);

/// "drift" of the number.
FaultSpec drift_fault(std::string_view number, double factor, const FaultNote& note);

/// The part stays in the condition.
FaultSpec force_fault(std::string_view kind, std::string_view condition, const FaultNote& note);

/// What the kind itself makes of it; takes no value.
FaultSpec ailment_fault(std::string_view kind, const FaultNote& note);

/// The same with a value; `value` in `unit`, from `low` to `high`.
struct AilmentValue {
    std::string_view unit;
    double value = 0;
    double low = 0;
    double high = 0;
};
FaultSpec ailment_fault(std::string_view kind, const AilmentValue& value, const FaultNote& note);

/// Fuse, breaker and link: somebody fitted another rating.
FaultSpec wrong_rating_fault(double rating_a, const FaultNote& note);

/// What every hand- or self-operated switch can suffer, each on one contact.
std::vector<FaultSpec> switch_faults();

}  // namespace halfsplit::model::kinds
