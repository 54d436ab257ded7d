#include "engine/base/nearest.h"

#include <algorithm>
#include <cctype>

namespace halfsplit {
namespace {

// A wrong name is compared with each known one, letter by letter: these bound the work of a hostile file.
constexpr std::size_t kLongestCompared = 40;
constexpr std::size_t kMostCompared = 5000;

std::string lower(std::string_view text) {
    std::string result(text);
    for (char& c : result) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return result;
}

std::size_t length_difference(std::string_view a, std::string_view b) {
    return a.size() > b.size() ? a.size() - b.size() : b.size() - a.size();
}

}  // namespace

int edit_distance(std::string_view a, std::string_view b) {
    std::vector<int> before_last(b.size() + 1);
    std::vector<int> last(b.size() + 1);
    std::vector<int> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) row[j] = static_cast<int>(j);
    for (std::size_t i = 1; i <= a.size(); ++i) {
        before_last.swap(last);
        last.swap(row);
        row[0] = static_cast<int>(i);
        for (std::size_t j = 1; j <= b.size(); ++j) {
            row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1)});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                row[j] = std::min(row[j], before_last[j - 2] + 1);
        }
    }
    return row[b.size()];
}

std::string_view nearest_name(std::string_view wrong, const std::vector<std::string_view>& known) {
    if (wrong.empty() || wrong.size() > kLongestCompared) return {};
    const std::string wrong_lower = lower(wrong);
    const int most = std::max(1, static_cast<int>(wrong.size()) / 3);
    int best = 2 * most + 2;
    std::string_view nearest;
    for (std::size_t i = 0; i < std::min(known.size(), kMostCompared); ++i) {
        if (known[i].empty() || length_difference(wrong, known[i]) > static_cast<std::size_t>(most)) continue;
        const std::string name = lower(known[i]);
        const int distance = edit_distance(wrong_lower, name);
        if (distance > most || distance >= static_cast<int>(name.size())) continue;
        // Of names equally near, one with the same first letter: H1 rather than E2 for H2.
        const int badness = 2 * distance + (name.front() == wrong_lower.front() ? 0 : 1);
        if (badness >= best) continue;
        best = badness;
        nearest = known[i];
    }
    return nearest;
}

std::string did_you_mean(std::string_view wrong, const std::vector<std::string_view>& known) {
    const std::string_view nearest = nearest_name(wrong, known);
    return nearest.empty() ? "" : " (did you mean " + std::string(nearest) + "?)";
}

std::string listed(const std::vector<std::string_view>& names) {
    std::string text;
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (i > 0) text += i + 1 == names.size() ? " or " : ", ";
        text += names[i];
    }
    return text;
}

std::string did_you_mean(std::string_view wrong, const std::vector<std::string>& known) {
    return did_you_mean(wrong, std::vector<std::string_view>(known.begin(), known.end()));
}

std::string listed(const std::vector<std::string>& names) {
    return listed(std::vector<std::string_view>(names.begin(), names.end()));
}

}  // namespace halfsplit
