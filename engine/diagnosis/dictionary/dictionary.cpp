#include "engine/diagnosis/dictionary/dictionary.h"

#include <algorithm>

namespace halfsplit::diagnosis {

bool Dictionary::puts_into_what_stands(int state) const {
    for (int row = 0; row < rows(); ++row)
        if (told_of(state, row) == Told::as_it_stands) return true;
    return false;
}

int Dictionary::index_of_state(std::string_view id) const {
    const auto found = std::ranges::find(states, id);
    return found == states.end() ? -1 : static_cast<int>(found - states.begin());
}

int Dictionary::index_of_finding(const Finding& finding) const {
    const auto found = std::ranges::find_if(
        findings, [&finding](const Finding& each) { return is_same_finding(each, finding); });
    return found == findings.end() ? -1 : static_cast<int>(found - findings.begin());
}

}  // namespace halfsplit::diagnosis
