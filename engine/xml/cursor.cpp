#include "engine/xml/cursor.h"

#include <cstdint>

#include "engine/xml/unicode.h"

namespace halfsplit::xml {

void Cursor::advance(std::size_t bytes) {
    for (std::size_t end = offset_ + bytes; offset_ < end; ++offset_) {
        const char c = text_[offset_];
        const bool lone_return = c == '\r' && text_.substr(offset_ + 1, 1) != "\n";
        if (c == '\n' || lone_return) {
            ++mark_.line;
            mark_.column = 1;
        } else if ((static_cast<std::uint8_t>(c) & 0xC0U) != 0x80U) {
            ++mark_.column;
        }
    }
}

bool Cursor::advance_to(std::string_view what) {
    const std::size_t found = text_.find(what, offset_);
    advance((found == std::string_view::npos ? text_.size() : found) - offset_);
    return found != std::string_view::npos;
}

bool Cursor::skip_space() {
    const std::size_t begin = offset_;
    while (!at_end() && is_space(peek())) advance(1);
    return offset_ != begin;
}

std::string_view Cursor::take_name() {
    const std::size_t begin = offset_;
    while (!at_end()) {
        const CodePoint c = code_point_at(text_, offset_);
        const bool fits =
            c.value == ':' || (offset_ == begin ? is_name_start(c.value) : is_name_char(c.value));
        if (!fits) break;
        advance(c.bytes);
    }
    return since(begin);
}

}  // namespace halfsplit::xml
