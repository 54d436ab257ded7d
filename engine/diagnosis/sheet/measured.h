#pragma once

#include <string>
#include <string_view>

#include <tl/expected.hpp>

namespace halfsplit::diagnosis {

/// What is measured with a meter.
enum class Measure { voltage, current };

/// A number somebody wrote beside a meter, in V or A: "12.3", "12,3", "12.3 V", "-340mV", "+2 A". Where it
/// has no unit it is in `unit` ("V", "mV", "A", "mA"; "" is V or A). The error says what is wrong and what
/// was expected.
tl::expected<double, std::string> read_measured(Measure measure, std::string_view text,
                                                std::string_view unit);

/// Whether it says that nothing was measured: nothing at all, or a dash.
bool is_left_out(std::string_view text);

}  // namespace halfsplit::diagnosis
