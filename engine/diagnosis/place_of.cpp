#include "engine/diagnosis/place_of.h"

#include <algorithm>

#include "engine/base/index.h"

namespace halfsplit::diagnosis {

int place_of(const model::Circuit& circuit, int part) {
    const auto place = std::ranges::find(circuit.places, circuit.parts[at(part)].place, &model::Place::id);
    return place == circuit.places.end() ? -1 : static_cast<int>(place - circuit.places.begin());
}

int easier_place(const model::Circuit& circuit, const model::Wire& wire) {
    const int from = place_of(circuit, wire.from.part);
    const int to = place_of(circuit, wire.to.part);
    if (from < 0 || to < 0) return -1;
    return circuit.places[at(to)].access_min < circuit.places[at(from)].access_min ? to : from;
}

}  // namespace halfsplit::diagnosis
