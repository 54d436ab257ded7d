#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "engine/diagnosis/dictionary/sign.h"

namespace halfsplit::diagnosis {

/// What a sheet says a part does: "lit", "dim", "dark" of a lamp, "runs", "slow", "still" of a motor …
std::string_view sign_word(Shows shows, Sign sign);

/// What somebody wrote a part does: the words above, and others people use (yes, no, weak, on, off, ok …), in
/// capitals or not. Of a fuse or a position, yes and no could mean either and are not taken. nullopt where it
/// is no such word.
std::optional<Sign> read_sign(Shows shows, std::string_view text);

/// "lit, dim or dark"
std::string expected_words(Shows shows);

}  // namespace halfsplit::diagnosis
