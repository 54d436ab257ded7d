#include "engine/instruments/display.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <limits>

namespace halfsplit::instruments {

namespace {

std::string fixed(double value, int decimals) {
    std::array<char, 64> text{};
    const double shown = value == 0 ? 0.0 : value;  // no "-0.00" on any display
    std::snprintf(text.data(), text.size(), "%.*f", decimals, shown);
    return text.data();
}

}  // namespace

bool show(double quantity, std::span<const Range> ranges, Accuracy accuracy, std::string_view base_unit,
          Reading& reading) {
    reading.unit = base_unit;
    const auto range = std::ranges::find_if(
        ranges, [&](const Range& each) { return std::abs(quantity) <= each.full_scale; });
    if (range == ranges.end()) {
        reading.valid = false;
        reading.value = std::copysign(ranges.back().full_scale, quantity);
        reading.low = quantity > 0 ? reading.value : -std::numeric_limits<double>::infinity();
        reading.high = quantity > 0 ? std::numeric_limits<double>::infinity() : reading.value;
        reading.shown = "beyond range";
        return false;
    }
    const double steps = std::round(quantity / range->resolution);
    reading.value = steps * range->resolution;
    const double margin =
        std::abs(reading.value) * accuracy.percent / 100 + accuracy.digits * range->resolution;
    reading.low = reading.value - margin;
    reading.high = reading.value + margin;
    reading.shown =
        fixed(reading.value * range->per_base_unit, range->decimals) + " " + std::string(range->unit);
    return true;
}

}  // namespace halfsplit::instruments
