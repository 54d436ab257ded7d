#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace halfsplit {

/// A number as our files and commands write it: the whole text, a decimal point, finite; "1,5", "12 k", " 1"
/// are none. The one place that reads numbers.
std::optional<double> parse_number(std::string_view text);

/// The shortest text that reads back as the same number: "0.05", "12".
std::string number_text(double value);

}  // namespace halfsplit
