#include "engine/xml/references.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cstdint>
#include <regex>

#include "engine/xml/unicode.h"

namespace halfsplit::xml {
namespace {

constexpr std::array<std::string_view, 5> kKnown{"lt", "gt", "amp", "quot", "apos"};
constexpr std::size_t kLongestReference = 10;  // "#x0010FFFF"

bool is_character_number(std::string_view name) {
    const bool hexadecimal = name.substr(0, 2) == "#x";
    const std::string_view digits = name.substr(hexadecimal ? 2 : 1);
    std::uint32_t value = 0;
    const auto [end, error] =
        std::from_chars(digits.data(), digits.data() + digits.size(), value, hexadecimal ? 16 : 10);
    return error == std::errc() && end == digits.data() + digits.size() && is_xml_char(value);
}

}  // namespace

std::optional<std::string> reference_error(std::string_view text) {
    const std::size_t end = text.substr(0, kLongestReference + 2).find(';');
    if (end == std::string_view::npos || end == 1) return "'&' stands alone; write &amp; for the sign itself";
    const std::string_view name = text.substr(1, end - 1);
    if (name.front() == '#') {
        if (is_character_number(name)) return std::nullopt;
        return "&" + std::string(name) + "; is no character that XML allows";
    }
    if (std::find(kKnown.begin(), kKnown.end(), name) != kKnown.end()) return std::nullopt;
    if (!is_name(name)) return "'&' stands alone; write &amp; for the sign itself";
    return "the entity &" + std::string(name) +
           "; is unknown; only &lt; &gt; &amp; &quot; &apos; and character numbers are";
}

bool is_plain_declaration(std::string_view text) {
    constexpr std::size_t kLongestDeclaration = 200;  // std::regex recurses
    if (text.size() > kLongestDeclaration) return false;
    static const std::regex pattern(
        R"(<\?xml\s+version\s*=\s*["']1\.0["'](\s+encoding\s*=\s*["'](utf-8|us-ascii)["'])?)"
        R"((\s+standalone\s*=\s*["'](yes|no)["'])?\s*)",
        std::regex::icase);
    return std::regex_match(text.begin(), text.end(), pattern);
}

}  // namespace halfsplit::xml
