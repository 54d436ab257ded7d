#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace halfsplit::xml {

/// What is wrong with the reference at the beginning of `text` (its "&"): known are the five of XML and the
/// numbers of characters that XML allows. nullopt where it is right.
std::optional<std::string> reference_error(std::string_view text);

/// Whether `text` is an XML declaration of version 1.0 in UTF-8, up to but without its "?>".
bool is_plain_declaration(std::string_view text);

}  // namespace halfsplit::xml
