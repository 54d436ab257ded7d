#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"

namespace halfsplit::xml {

/// Line and column in a file, both from 1; columns count code points (a byte order mark counts nothing).
struct Mark {
    int line = 0;
    int column = 0;
};

struct Attribute {
    std::string name;
    std::string value;  ///< references replaced, line ends and tabs become spaces
    Mark where;         ///< of the first letter of its name
    Mark value_where;   ///< of what follows its opening quote
    /// Of the same, in bytes from the beginning of the text after its byte order mark.
    std::size_t value_offset = 0;
};

struct Element {
    std::string name;
    std::vector<Attribute> attributes;
    std::vector<Element> children;
    std::string text;  ///< its own text, without that of its children and without space around it
    Mark where;        ///< of its "<"
    Mark text_where;   ///< of the first letter of `text`; line 0 where there is none

    const Attribute* attribute(std::string_view attribute_name) const;
};

/// A file as a tree. The namespace has been checked and is not among the attributes.
struct Document {
    std::string file;
    Element root;
    int element_count = 0;
};

/// Reads a file in UTF-8 whose elements all belong to the one namespace `name_space`, declared on the root
/// and used without prefix. Refused beside what is not well-formed: document types and with them every entity
/// but the five of XML, processing instructions, prefixes (but `xsi:schemaLocation`, which editors put on the
/// root and which is ignored), and whatever exceeds limits.h.
tl::expected<Document, Diagnostics> read_document(std::string_view text, const std::string& file,
                                                  std::string_view name_space);

/// Where in the file code point `column` (from 1) of the attribute's value stands: a reference such as &lt;
/// is one code point of the value and several of the file. `text` is what the attribute was read from.
Mark mark_in_value(std::string_view text, const Attribute& attribute, int column);

}  // namespace halfsplit::xml
