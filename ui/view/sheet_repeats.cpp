#include "ui/view/sheet_repeats.h"

#include <cmath>
#include <map>
#include <string>

namespace halfsplit::view {

using diagnosis::SheetRow;

namespace {

/// A row that was printed, and in which state.
struct Printed {
    const SheetRow* row;
    int state;
};

bool reads_the_same(const SheetRow& a, const SheetRow& b) {
    if (a.floating || b.floating) return a.floating && b.floating;
    if (a.pulses || b.pulses) return a.pulses && b.pulses;
    return std::abs(a.expected - b.expected) < kSameV;
}

}  // namespace

std::vector<std::vector<int>> repeats_in(const diagnosis::Sheet& sheet) {
    std::vector<std::vector<int>> repeats;
    std::multimap<std::string, Printed> printed;
    for (int state = 0; state < static_cast<int>(sheet.states.size()); ++state) {
        std::vector<int>& of_rows = repeats.emplace_back();
        for (const SheetRow& row : sheet.states[static_cast<std::size_t>(state)].rows) {
            of_rows.push_back(-1);
            if (row.kind != SheetRow::Kind::voltage || row.practice != diagnosis::Practice::none) continue;
            const auto [first, last] = printed.equal_range(row.at);
            for (auto earlier = first; earlier != last && of_rows.back() < 0; ++earlier)
                if (reads_the_same(*earlier->second.row, row)) of_rows.back() = earlier->second.state;
            if (of_rows.back() < 0) printed.emplace(row.at, Printed{&row, state});
        }
    }
    return repeats;
}

}  // namespace halfsplit::view
