#pragma once

#include <cstddef>
#include <string_view>

#include "engine/xml/document.h"

namespace halfsplit::xml {

/// A place in a text that moves forwards only and knows its line and column. Line ends are LF, CR LF or CR
/// (XML 1.0 section 2.11).
class Cursor {
  public:
    explicit Cursor(std::string_view text) : text_(text) {}

    bool at_end() const { return offset_ == text_.size(); }
    char peek() const { return at_end() ? '\0' : text_[offset_]; }
    bool sees(std::string_view what) const { return text_.substr(offset_, what.size()) == what; }
    std::size_t offset() const { return offset_; }
    Mark mark() const { return mark_; }
    std::string_view rest() const { return text_.substr(offset_); }
    std::string_view since(std::size_t begin) const { return text_.substr(begin, offset_ - begin); }

    void advance(std::size_t bytes);
    /// Moves to the next `what`; false (and to the end of the text) where there is none.
    bool advance_to(std::string_view what);
    /// Moves over spaces, tabs and line ends; false where there is none here.
    bool skip_space();
    /// Moves over an XML name, colons included; empty where none begins here.
    std::string_view take_name();

  private:
    std::string_view text_;
    std::size_t offset_ = 0;
    Mark mark_{1, 1};
};

inline bool is_space(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

}  // namespace halfsplit::xml
