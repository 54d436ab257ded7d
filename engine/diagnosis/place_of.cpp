#include "engine/diagnosis/place_of.h"

#include <algorithm>

#include "engine/base/index.h"

namespace halfsplit::diagnosis {

int place_of(const model::Circuit& circuit, int part) {
    const auto place = std::ranges::find(circuit.places, circuit.parts[at(part)].place, &model::Place::id);
    return place == circuit.places.end() ? -1 : static_cast<int>(place - circuit.places.begin());
}

}  // namespace halfsplit::diagnosis
