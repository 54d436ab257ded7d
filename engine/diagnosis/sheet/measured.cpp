#include "engine/diagnosis/sheet/measured.h"

#include <algorithm>
#include <array>

#include "engine/base/number.h"

namespace halfsplit::diagnosis {

namespace {

constexpr std::string_view kMinusSign = "\xE2\x88\x92";  // as word processors write it
constexpr std::string_view kEnDash = "\xE2\x80\x93";
constexpr std::string_view kEmDash = "\xE2\x80\x94";

struct Unit {
    std::string_view text;
    Measure measure;
    double factor;
};

/// Capitals are not always taken seriously on paper, but M is never a thousandth.
constexpr std::array kUnits{Unit{"V", Measure::voltage, 1},     Unit{"v", Measure::voltage, 1},
                            Unit{"Volt", Measure::voltage, 1},  Unit{"volts", Measure::voltage, 1},
                            Unit{"mV", Measure::voltage, 1e-3}, Unit{"mv", Measure::voltage, 1e-3},
                            Unit{"A", Measure::current, 1},     Unit{"a", Measure::current, 1},
                            Unit{"mA", Measure::current, 1e-3}, Unit{"ma", Measure::current, 1e-3}};

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view kSpaces = " \t\r\n";
    const std::size_t first = text.find_first_not_of(kSpaces);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(kSpaces) - first + 1);
}

/// As read_number wants it: a plain minus sign, no plus sign, a decimal point.
std::string plain(std::string_view text) {
    std::string number;
    if (text.starts_with(kMinusSign)) {
        number = "-";
        text.remove_prefix(kMinusSign.size());
    } else if (text.starts_with("+") && !text.starts_with("+-")) {
        text.remove_prefix(1);
    }
    number += text;
    if (std::ranges::count(number, ',') == 1 && number.find('.') == std::string::npos)
        number[number.find(',')] = '.';
    return number;
}

std::string expectation(Measure measure) {
    return measure == Measure::voltage ? "a voltage such as 12.3 or 45 mV is expected"
                                       : "a current such as 2.3 or 45 mA is expected";
}

}  // namespace

bool is_left_out(std::string_view text) {
    const std::string_view words = trimmed(text);
    return words.empty() || words == "-" || words == kEnDash || words == kEmDash;
}

tl::expected<double, std::string> read_measured(Measure measure, std::string_view text,
                                                std::string_view unit) {
    const std::string_view whole = trimmed(text);
    const std::size_t end = whole.find_last_of("0123456789.,");
    const std::size_t length = end == std::string_view::npos ? 0 : end + 1;
    const auto number = read_number(plain(whole.substr(0, length)));
    if (!number) return tl::unexpected("'" + std::string(whole) + "' is no reading; " + expectation(measure));
    const std::string_view own_unit = trimmed(whole.substr(length));
    const std::string_view written = own_unit.empty() ? trimmed(unit) : own_unit;
    if (written.empty()) return *number;
    const auto known = std::ranges::find(kUnits, written, &Unit::text);
    if (known == kUnits.end() || known->measure != measure)
        return tl::unexpected("'" + std::string(written) + "' is no unit of it; " + expectation(measure));
    return *number * known->factor;
}

}  // namespace halfsplit::diagnosis
