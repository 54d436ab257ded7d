#include "ui/view/unit_signs.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <string_view>

namespace halfsplit::view {

namespace {

struct UnitSign {
    std::string_view written;
    std::string_view sign;
};

constexpr std::array kSigns{UnitSign{"ohm", "Ω"},   UnitSign{"mohm", "mΩ"}, UnitSign{"kohm", "kΩ"},
                            UnitSign{"Mohm", "MΩ"}, UnitSign{"degC", "°C"}, UnitSign{"mm2", "mm²"},
                            UnitSign{"uF", "µF"},   UnitSign{"uA", "µA"}};

bool is_letter_or_digit(char letter) {
    return std::isalnum(static_cast<unsigned char>(letter)) != 0;
}
bool is_digit(char letter) {
    return std::isdigit(static_cast<unsigned char>(letter)) != 0;
}

/// The end of the word that begins there.
std::size_t end_of_word(const std::string& text, std::size_t begin) {
    const auto from = text.begin() + static_cast<std::ptrdiff_t>(begin);
    return static_cast<std::size_t>(std::find_if_not(from, text.end(), is_letter_or_digit) - text.begin());
}

}  // namespace

std::string unit_sign(const std::string& unit) {
    const auto* const found = std::ranges::find(kSigns, std::string_view(unit), &UnitSign::written);
    return found == kSigns.end() ? unit : std::string(found->sign);
}

std::string with_unit_signs(const std::string& text) {
    std::string signs;
    std::size_t copied = 0;
    for (std::size_t space = text.find(' '); space != std::string::npos; space = text.find(' ', space + 1)) {
        if (space == 0 || !is_digit(text[space - 1])) continue;
        const std::size_t end = end_of_word(text, space + 1);
        signs += text.substr(copied, space + 1 - copied);
        signs += unit_sign(text.substr(space + 1, end - space - 1));
        copied = end;
    }
    return signs + text.substr(copied);
}

}  // namespace halfsplit::view
