#include <algorithm>
#include <iterator>
#include <utility>

#include "engine/base/index.h"
#include "engine/base/nearest.h"
#include "engine/diagnosis/place_of.h"
#include "engine/practice/session/serviced_vehicle.h"

/// What somebody sees and hears who does nothing.
namespace halfsplit::practice {

using model::Circuit;

namespace {

constexpr const char* kAll = "all";

std::vector<std::string> names_to_look_at(const Circuit& circuit,
                                          const std::vector<diagnosis::SignSource>& sources) {
    std::vector<std::string> names{kAll};
    for (const diagnosis::SignSource& source : sources) names.push_back(source.name);
    for (const model::Part& part : circuit.parts)
        if (does_click(part)) names.push_back(part.id);
    for (const model::Place& place : circuit.places) names.push_back(place.id);
    return names;
}

}  // namespace

Done ServicedVehicle::look(const Action& action) {
    const Appearance& now = watched();
    if (action.arguments.empty() || action.arguments.front() == kAll) {
        const bool is_all = !action.arguments.empty();
        Effect effect{is_all ? onlooker_.describe(now) : onlooker_.noteworthy(looked_round_, now), {}, 0};
        looked_round_ = now;
        return effect;
    }
    const std::string& name = action.arguments.front();
    if (const model::Place* place = circuit_->find_place(name);
        place != nullptr && circuit_->find_part(name) == nullptr)
        return look_at_place(static_cast<int>(place - circuit_->places.data()));
    if (const model::Part* part = circuit_->find_part(name); part != nullptr && does_click(*part)) {
        if (!clicked_)
            return tl::unexpected("nothing has been operated yet that " + name +
                                  " could have clicked at; operate something, then look again");
        return Effect{{felt_of_relay(name)}, {}, 0};
    }
    std::vector<Observed> seen = onlooker_.describe(now, name);
    if (!seen.empty()) return Effect{std::move(seen), {}, 0};
    return tl::unexpected("nothing is seen or heard of '" + name + "'" +
                          did_you_mean(name, names_to_look_at(*circuit_, onlooker_.sources())) +
                          "; what lights, moves, sounds or clicks can be looked at, a fuse, a place, or all; "
                          "to take it in hand, inspect it");
}

/// A finger on it tells which of several it is.
Observed ServicedVehicle::felt_of_relay(const std::string& id) {
    if (watched().clicks_per_min.contains(id)) return {id, "clicks on", "clicks again and again"};
    const bool did = clicked_->contains(id);
    return {id, did ? "clicked" : "did not click",
            std::string(did ? "clicked" : "did not click") + " when something was last operated"};
}

Done ServicedVehicle::look_at_place(int place) {
    Effect effect;
    for (int part = 0; part < static_cast<int>(circuit_->parts.size()); ++part) {
        if (diagnosis::place_of(*circuit_, part) != place) continue;
        const std::string& id = circuit_->parts[at(part)].id;
        std::ranges::move(onlooker_.describe(watched(), id), std::back_inserter(effect.observed));
        if (clicked_ && does_click(circuit_->parts[at(part)])) effect.observed.push_back(felt_of_relay(id));
    }
    if (effect.observed.empty())
        return tl::unexpected("nothing lights, moves, sounds or clicks at '" +
                              circuit_->places[at(place)].id + "'");
    return effect;
}

}  // namespace halfsplit::practice
