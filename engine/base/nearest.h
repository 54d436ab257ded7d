#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace halfsplit {

/// Single-letter insertions, deletions, replacements and swaps of neighbours that turn one text into the
/// other (optimal string alignment distance), counted in bytes.
int edit_distance(std::string_view a, std::string_view b);

/// The nearest of `known`, or "" where none is near: at most a third of the letters differ. Capitals count as
/// the same letter.
std::string_view nearest_name(std::string_view wrong, const std::vector<std::string_view>& known);

/// " (did you mean K2?)" with the nearest name, or "" where none is near.
std::string did_you_mean(std::string_view wrong, const std::vector<std::string_view>& known);

/// "one, two or three"
std::string listed(const std::vector<std::string_view>& names);

// The same for names that are not kept elsewhere.
std::string did_you_mean(std::string_view wrong, const std::vector<std::string>& known);
std::string listed(const std::vector<std::string>& names);

}  // namespace halfsplit
