#include "engine/xml/unicode.h"

#include <algorithm>
#include <array>
#include <cstdint>

namespace halfsplit::xml {
namespace {

struct Range {
    char32_t first;
    char32_t last;
};

// XML 1.0 fifth edition, production 4, without the colon and the ASCII letters.
constexpr std::array<Range, 13> kNameStartRanges{{{0xC0, 0xD6},
                                                  {0xD8, 0xF6},
                                                  {0xF8, 0x2FF},
                                                  {0x370, 0x37D},
                                                  {0x37F, 0x1FFF},
                                                  {0x200C, 0x200D},
                                                  {0x2070, 0x218F},
                                                  {0x2C00, 0x2FEF},
                                                  {0x3001, 0xD7FF},
                                                  {0xF900, 0xFDCF},
                                                  {0xFDF0, 0xFFFD},
                                                  {0x10000, 0xEFFFF},
                                                  {'_', '_'}}};

// Production 4a: what may follow besides, without the ASCII digits.
constexpr std::array<Range, 4> kNameExtraRanges{{{'-', '.'}, {0xB7, 0xB7}, {0x300, 0x36F}, {0x203F, 0x2040}}};

template <std::size_t N>
bool in_ranges(const std::array<Range, N>& ranges, char32_t c) {
    return std::any_of(ranges.begin(), ranges.end(),
                       [c](const Range& range) { return c >= range.first && c <= range.last; });
}

std::uint8_t byte_at(std::string_view text, std::size_t offset) {
    return static_cast<std::uint8_t>(text[offset]);
}

/// Length of the sequence its first byte announces; 0 where no sequence begins so.
std::size_t announced_bytes(std::uint8_t first) {
    if (first < 0x80) return 1;
    if (first >= 0xC2 && first <= 0xDF) return 2;
    if (first >= 0xE0 && first <= 0xEF) return 3;
    if (first >= 0xF0 && first <= 0xF4) return 4;
    return 0;
}

bool shortest_form_and_no_surrogate(char32_t value, std::size_t bytes) {
    if (bytes == 3) return value >= 0x800 && (value < 0xD800 || value > 0xDFFF);
    if (bytes == 4) return value >= 0x10000 && value <= 0x10FFFF;
    return true;
}

}  // namespace

CodePoint code_point_at(std::string_view text, std::size_t offset) {
    const std::uint8_t first = byte_at(text, offset);
    const std::size_t bytes = announced_bytes(first);
    if (bytes == 0 || offset + bytes > text.size()) return {};
    if (bytes == 1) return {first, 1};
    char32_t value = first & (0x7FU >> bytes);
    for (std::size_t i = 1; i < bytes; ++i) {
        const std::uint8_t next = byte_at(text, offset + i);
        if ((next & 0xC0U) != 0x80U) return {};
        value = (value << 6U) | (next & 0x3FU);
    }
    if (!shortest_form_and_no_surrogate(value, bytes)) return {};
    return {value, bytes};
}

bool is_xml_char(char32_t c) {
    if (c < 0x20) return c == '\t' || c == '\n' || c == '\r';
    return c <= 0xD7FF || (c >= 0xE000 && c <= 0xFFFD) || (c >= 0x10000 && c <= 0x10FFFF);
}

bool is_name_start(char32_t c) {
    if (c < 0x80) return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
    return in_ranges(kNameStartRanges, c);
}

bool is_name_char(char32_t c) {
    return is_name_start(c) || (c >= '0' && c <= '9') || in_ranges(kNameExtraRanges, c);
}

bool is_name(std::string_view text) {
    std::size_t offset = 0;
    while (offset < text.size()) {
        const CodePoint c = code_point_at(text, offset);
        if (c.bytes == 0) return false;
        if (offset == 0 ? !is_name_start(c.value) : !is_name_char(c.value)) return false;
        offset += c.bytes;
    }
    return !text.empty();
}

std::optional<EncodingError> find_encoding_error(std::string_view text) {
    if (text.substr(0, 2) == "\xFE\xFF" || text.substr(0, 2) == "\xFF\xFE")
        return EncodingError{0, "the file is in UTF-16; UTF-8 is expected"};
    std::size_t offset = 0;
    while (offset < text.size()) {
        const CodePoint c = code_point_at(text, offset);
        if (c.bytes == 0) return EncodingError{offset, "this byte is not UTF-8; UTF-8 is expected"};
        if (!is_xml_char(c.value))
            return EncodingError{offset,
                                 "a control character stands here; XML allows none but tab and line end"};
        offset += c.bytes;
    }
    return std::nullopt;
}

}  // namespace halfsplit::xml
