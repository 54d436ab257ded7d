#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/xml/document.h"

namespace halfsplit::xml {

/// Where things stand in a text that has been found well-formed, each in the order of the text.
struct Markup {
    struct ElementMarks {
        Mark tag;   ///< its "<"
        Mark text;  ///< its first text that is not space; line 0 where there is none
    };
    struct AttributeMarks {
        Mark name;
        Mark value;                    ///< behind its opening quote
        std::size_t value_offset = 0;  ///< of the same
    };
    std::vector<ElementMarks> elements;
    std::vector<AttributeMarks> attributes;
};

/// Goes over the text once, without recursion and without building anything, before the XML library sees it:
/// checks well-formedness and the limits (the library is lenient about duplicate attributes, unknown
/// references and document types, and knows no depth limit) and notes positions (the library keeps none for
/// attributes). `text` is UTF-8 without byte order mark.
tl::expected<Markup, Diagnostics> scan_markup(std::string_view text, const std::string& file);

}  // namespace halfsplit::xml
