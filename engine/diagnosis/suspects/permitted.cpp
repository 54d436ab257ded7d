#include "engine/diagnosis/suspects/permitted.h"

#include <numeric>

namespace halfsplit::diagnosis {

Permitted all_permitted(const Dictionary& dictionary) {
    Permitted all{std::vector<int>(dictionary.states.size()), std::vector<int>(dictionary.findings.size())};
    std::iota(all.states.begin(), all.states.end(), 0);
    std::iota(all.findings.begin(), all.findings.end(), 0);
    return all;
}

}  // namespace halfsplit::diagnosis
