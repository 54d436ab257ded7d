#pragma once

#include <span>
#include <string>
#include <string_view>

#include "engine/instruments/instrument.h"

namespace halfsplit::instruments {

/// One range of a meter: used up to `full_scale`, shown in steps of `resolution`, both in the base unit.
struct Range {
    double full_scale = 0;
    double resolution = 0;
    std::string_view unit;     ///< as shown: "mV"
    double per_base_unit = 1;  ///< 1000 for mV
    int decimals = 0;          ///< in the unit shown
};

/// A meter's accuracy: +-(percent of reading + so many steps of the last digit).
struct Accuracy {
    double percent = 0;
    double digits = 0;
};

/// Fills in value, limits, unit and text of a reading of `quantity` (base unit), the smallest fitting range
/// chosen. False where it is beyond the largest range: then the reading is not valid and says so.
bool show(double quantity, std::span<const Range> ranges, Accuracy accuracy, std::string_view base_unit,
          Reading& reading);

}  // namespace halfsplit::instruments
