#include "engine/base/number.h"

#include <array>
#include <charconv>
#include <cmath>

namespace halfsplit {
namespace {

constexpr std::string_view kDigits = "0123456789";
constexpr std::string_view kSpaces = " \t\r\n";

/// What a person most likely meant by a text that is no number.
std::string why_no_number(std::string_view text) {
    const std::string quoted = "'" + std::string(text) + "' is not a number; ";
    if (text.empty()) return "the value is empty; a number is expected";
    if (text.find_first_of(kSpaces) != std::string_view::npos)
        return quoted + "digits without any spaces are expected";
    if (text.find(',') != std::string_view::npos) return quoted + "a decimal point is expected, not a comma";
    if (text.front() == '+') return quoted + "no plus sign is expected";
    if (text.substr(0, 2) == "0x" || text.substr(0, 2) == "0X")
        return quoted + "a decimal number is expected";
    if (kDigits.find(text.front()) != std::string_view::npos)
        return quoted + "a number alone is expected, its unit is in the attribute's name";
    return quoted + "a number such as 12 or 0.5 is expected";
}

}  // namespace

tl::expected<double, std::string> read_number(std::string_view text) {
    // from_chars would also take "inf" and "nan".
    const bool begins_like_one = text.find_first_not_of("0123456789.eE+-") == std::string_view::npos;
    double number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (!begins_like_one || error == std::errc::invalid_argument || end != text.data() + text.size())
        return tl::unexpected(why_no_number(text));
    if (error != std::errc() || !std::isfinite(number))
        return tl::unexpected("'" + std::string(text) + "' is beyond what a number can hold");
    return number;
}

tl::expected<int, std::string> read_whole_number(std::string_view text, int low, int high) {
    const auto number = read_number(text);
    if (!number) return tl::unexpected(number.error());
    if (std::floor(*number) != *number)
        return tl::unexpected("'" + std::string(text) + "' is not a whole number; one is expected");
    if (*number < low || *number > high)
        return tl::unexpected(std::string(text) + " is out of range; " + std::to_string(low) + " to " +
                              std::to_string(high) + " is expected");
    return static_cast<int>(*number);
}

std::string number_text(double number) {
    // People read 0.0001 and 100000 more easily than the shorter 1e-04 and 1e+05.
    const double size = std::abs(number);
    const bool plain = number == 0 || (size >= 1e-6 && size < 1e9);
    std::array<char, 40> buffer{};
    const auto [end, error] =
        plain ? std::to_chars(buffer.data(), buffer.data() + buffer.size(), number, std::chars_format::fixed)
              : std::to_chars(buffer.data(), buffer.data() + buffer.size(), number);
    return error == std::errc() ? std::string(buffer.data(), end) : std::string();
}

}  // namespace halfsplit
