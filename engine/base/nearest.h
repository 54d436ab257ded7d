#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit {

/// The known name a person most likely meant: fewest slips (Levenshtein distance), at most a third of its
/// letters. Empty where nothing is near.
std::string nearest_name(std::string_view written, std::span<const std::string> known);

/// " (did you mean 'relay'?)", or "" where nothing is near: to be put behind an error message.
std::string did_you_mean(std::string_view written, std::span<const std::string> known);

/// "a, b or c", for saying what was expected.
std::string one_of(std::span<const std::string> words);

}  // namespace halfsplit
