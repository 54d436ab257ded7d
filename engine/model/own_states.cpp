#include "engine/model/own_states.h"

#include <numeric>

#include "engine/base/index.h"

namespace halfsplit::model {

std::vector<int> own_states(const Circuit& circuit, const std::string& path) {
    std::vector<int> own;
    for (int state = 0; state < static_cast<int>(circuit.states.size()); ++state)
        if (circuit.states[at(state)].where.file == path) own.push_back(state);
    if (!own.empty()) return own;
    own.resize(circuit.states.size());
    std::iota(own.begin(), own.end(), 0);
    return own;
}

std::vector<std::string> own_state_ids(const Circuit& circuit, const std::string& path) {
    const std::vector<int> own = own_states(circuit, path);
    std::vector<std::string> ids;
    ids.reserve(own.size());
    for (const int state : own) ids.push_back(circuit.states[at(state)].id);
    return ids;
}

}  // namespace halfsplit::model
