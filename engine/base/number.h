#pragma once

#include <string>
#include <string_view>

#include <tl/expected.hpp>

namespace halfsplit {

// Numbers as circuit files write them: a decimal point, an optional minus sign and exponent, nothing else.
// The whole text must be the number ("12 k" and "1,5" are refused), whatever the locale. The error says what
// is wrong and what was expected.

/// A finite number.
tl::expected<double, std::string> read_number(std::string_view text);

/// A whole number between `low` and `high`.
tl::expected<int, std::string> read_whole_number(std::string_view text, int low, int high);

/// The shortest text that reads back as the same number: "0.1", "12", "1e+12".
std::string number_text(double number);

}  // namespace halfsplit
