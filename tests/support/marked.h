#pragma once

#include <string>
#include <string_view>

namespace halfsplit::test {

/// A snippet in which the place of a mistake is put between « and ».
struct Marked {
    std::string text;  ///< without the marks
    int line = 1;      ///< of the «
    int column = 1;    ///< in code points
};

inline Marked unmark(std::string_view snippet) {
    constexpr std::string_view kOpen = "«";
    constexpr std::string_view kClose = "»";
    Marked marked;
    marked.text = snippet;
    const std::size_t open = marked.text.find(kOpen);
    if (open == std::string::npos) return {marked.text, 0, 0};
    for (std::size_t i = 0; i < open; ++i) {
        const bool continues_code_point = (static_cast<unsigned char>(marked.text[i]) & 0xC0U) == 0x80U;
        if (marked.text[i] == '\n') {
            ++marked.line;
            marked.column = 1;
        } else if (!continues_code_point) {
            ++marked.column;
        }
    }
    marked.text.erase(open, kOpen.size());
    if (const std::size_t close = marked.text.find(kClose); close != std::string::npos)
        marked.text.erase(close, kClose.size());
    return marked;
}

}  // namespace halfsplit::test
