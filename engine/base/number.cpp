#include "engine/base/number.h"

#include <array>
#include <charconv>
#include <cmath>

namespace halfsplit {

std::optional<double> parse_number(std::string_view text) {
    double value = 0;
    const char* const end = text.data() + text.size();
    const auto [stopped, error] = std::from_chars(text.data(), end, value);
    if (error != std::errc{} || stopped != end || !std::isfinite(value)) return std::nullopt;
    return value;
}

std::string number_text(double value) {
    std::array<char, 32> digits{};
    const auto [end, error] = std::to_chars(digits.data(), digits.data() + digits.size(), value);
    return error == std::errc{} ? std::string(digits.data(), end) : std::string("?");
}

}  // namespace halfsplit
