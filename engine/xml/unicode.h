#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace halfsplit::xml {

/// One code point of UTF-8 text and how many bytes it takes; `bytes` 0 where the text is not UTF-8 there.
struct CodePoint {
    char32_t value = 0;
    std::size_t bytes = 0;
};

/// The code point at `offset` (< text.size()). Over-long forms, surrogates and values above U+10FFFF are no
/// UTF-8 (RFC 3629 section 3).
CodePoint code_point_at(std::string_view text, std::size_t offset);

/// XML 1.0 (fifth edition) production 2: the characters a document may contain at all.
bool is_xml_char(char32_t c);

/// An XML name without a colon: letters, digits, `-`, `_`, `.`, not beginning with a digit, `-` or `.`
/// (Namespaces in XML 1.0, NCName; XML 1.0 fifth edition productions 4 and 4a).
bool is_name(std::string_view text);
bool is_name_start(char32_t c);
bool is_name_char(char32_t c);

/// Where the text stops being UTF-8 that XML allows, and why.
struct EncodingError {
    std::size_t offset = 0;
    std::string message;
};
std::optional<EncodingError> find_encoding_error(std::string_view text);

}  // namespace halfsplit::xml
