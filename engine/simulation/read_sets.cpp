#include "engine/simulation/read_sets.h"

#include <sstream>

#include "engine/base/number.h"

namespace halfsplit::simulation {

namespace {

tl::expected<TimedSet, std::string> read_line(const std::string& line) {
    std::istringstream words(line);
    std::string time;
    std::string set;
    std::string over;
    std::string seconds;
    std::string more;
    words >> time >> set >> over >> seconds >> more;
    const auto at_s = read_number(time);
    if (!at_s || *at_s < 0)
        return tl::unexpected("'" + time + "' is no time in seconds (decimals take a point)");
    const std::size_t equals = set.find('=');
    if (equals == std::string::npos || equals == 0 || equals + 1 == set.size())
        return tl::unexpected("after the time WHAT=VALUE was expected, not '" + set + "'");
    TimedSet result{*at_s, set.substr(0, equals), set.substr(equals + 1), 0, {}};
    if (over.empty()) return result;
    const auto over_s = read_number(seconds);
    if (over != "over" || !over_s || *over_s < 0 || !more.empty())
        return tl::unexpected("after " + set + " only 'over SECONDS' can follow");
    result.over_s = *over_s;
    return result;
}

}  // namespace

tl::expected<std::vector<TimedSet>, Diagnostics> read_sets(std::string_view text, const std::string& file) {
    std::vector<TimedSet> sets;
    Diagnostics problems;
    std::istringstream lines{std::string(text)};
    std::string line;
    for (int number = 1; std::getline(lines, line); ++number) {
        if (const std::size_t hash = line.find('#'); hash != std::string::npos) line.erase(hash);
        const std::size_t first = line.find_first_not_of(" \t\r");
        if (first == std::string::npos) continue;
        const Location where{file, number, static_cast<int>(first) + 1};
        auto set = read_line(line);
        if (!set) {
            problems.push_back({where, set.error()});
            continue;
        }
        set->where = where;
        sets.push_back(std::move(*set));
    }
    if (!problems.empty()) return tl::unexpected(problems);
    return sets;
}

}  // namespace halfsplit::simulation
