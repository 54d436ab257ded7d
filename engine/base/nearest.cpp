#include "engine/base/nearest.h"

#include <algorithm>
#include <numeric>

namespace halfsplit {

namespace {

/// Letters put in, left out, exchanged or swapped with their neighbour (optimal string alignment distance).
std::size_t slips_between(std::string_view a, std::string_view b) {
    std::vector<std::size_t> before_last(b.size() + 1);
    std::vector<std::size_t> last(b.size() + 1);
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 1; i <= a.size(); ++i) {
        before_last.swap(last);
        last.swap(row);
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1)});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                row[j] = std::min(row[j], before_last[j - 2] + 1);
        }
    }
    return row[b.size()];
}

/// Longer than any name people write: comparing it would cost time and suggest nothing.
constexpr std::size_t kLongestName = 64;

}  // namespace

std::string nearest_name(std::string_view written, std::span<const std::string> known) {
    if (written.size() > kLongestName) return {};
    std::string best;
    std::size_t best_slips = std::max<std::size_t>(1, written.size() / 3) + 1;
    for (const std::string& name : known) {
        if (name.size() > kLongestName) continue;
        const std::size_t slips = slips_between(written, name);
        if (slips >= best_slips) continue;
        best_slips = slips;
        best = name;
    }
    return best;
}

std::string did_you_mean(std::string_view written, std::span<const std::string> known) {
    const std::string near = nearest_name(written, known);
    return near.empty() ? "" : " (did you mean '" + near + "'?)";
}

std::string one_of(std::span<const std::string> words) {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0) text += i + 1 == words.size() ? " or " : ", ";
        text += words[i];
    }
    return text;
}

}  // namespace halfsplit
