#include "engine/practice/session/toll.h"

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/sign.h"
#include "engine/diagnosis/next_test/effort.h"
#include "engine/diagnosis/place_of.h"
#include "engine/instruments/instrument.h"
#include "engine/instruments/probing.h"
#include "engine/practice/session/rhythm.h"
#include "engine/practice/session/thing.h"

namespace halfsplit::practice {

using model::Circuit;

namespace {

// From memory, as the figures of diagnosis::Effort are.
constexpr double kOperateMin = 0.1;
constexpr double kHandleMin = 0.5;  ///< a fuse, a plug, a clip
constexpr double kPartForMeterMin = 1;
constexpr double kSwapMin = 1;

double work_of_instrument(const std::string& id) {
    const diagnosis::Effort effort;
    const instruments::Instrument* instrument = instruments::find_instrument(id);
    if (instrument == nullptr) return effort.voltage_min;
    switch (instrument->connection) {
        case instruments::Connection::around_wire:
            return effort.current_min;
        case instruments::Connection::in_series:
            return effort.voltage_min + kPartForMeterMin;
        case instruments::Connection::two_points:
        case instruments::Connection::on_fuse:
            break;
    }
    return effort.voltage_min;
}

double work_of_repair(const Circuit& circuit, const Action& action) {
    const auto thing = find_thing(circuit, action.arguments.front());
    return thing ? repair_minutes(circuit, *thing) : 0;
}

double work_of(const Circuit& circuit, const Action& action) {
    const diagnosis::Effort effort;
    switch (action.verb) {
        case Verb::state:
            return effort.state_min;
        case Verb::set:
        case Verb::press:
            return kOperateMin;
        case Verb::look:
            return effort.sign_min;
        case Verb::measure:
            return work_of_instrument(action.arguments.front());
        case Verb::record:
            return 2 * effort.voltage_min;
        case Verb::pull:
        case Verb::push:
        case Verb::unplug:
        case Verb::plug:
        case Verb::bridge:
        case Verb::unbridge:
            return kHandleMin;
        case Verb::swap:
            return kSwapMin;
        case Verb::fit:
            return effort.replace_fuse_min;
        case Verb::inspect:
            return effort.look_min;
        case Verb::replace:
        case Verb::mend:
            return work_of_repair(circuit, action);
        case Verb::wait:
        case Verb::suspect:
        case Verb::strike:
        case Verb::hint:
        case Verb::done:
            break;
    }
    return 0;
}

void add_place(int place, std::vector<int>& places) {
    if (place >= 0) places.push_back(place);
}

void add_place_of_name(const Circuit& circuit, const std::string& name, std::vector<int>& places) {
    if (const model::Part* part = instruments::part_of_point(circuit, name))
        return add_place(diagnosis::place_of(circuit, static_cast<int>(part - circuit.parts.data())), places);
    if (const auto thing = find_thing(circuit, name)) add_place(place_of_thing(circuit, *thing), places);
}

/// A fuse is seen, and a relay felt, where it is; all else from outside.
bool is_looked_at_on_the_spot(const model::Part& part) {
    return diagnosis::is_fuse(part) || does_click(part);
}

void add_place_to_look_at(const Circuit& circuit, const std::string& name, std::vector<int>& places) {
    if (const model::Part* part = circuit.find_part(name)) {
        if (is_looked_at_on_the_spot(*part)) add_place_of_name(circuit, name, places);
        return;
    }
    const model::Place* place = circuit.find_place(name);
    if (place == nullptr) return;
    const int index = static_cast<int>(place - circuit.places.data());
    for (int part = 0; part < static_cast<int>(circuit.parts.size()); ++part)
        if (diagnosis::place_of(circuit, part) == index && is_looked_at_on_the_spot(circuit.parts[at(part)]))
            return add_place(index, places);
}

}  // namespace

std::vector<int> places_of(const Circuit& circuit, const Action& action) {
    std::vector<int> places;
    switch (action.verb) {
        case Verb::look:
            if (!action.arguments.empty()) add_place_to_look_at(circuit, action.arguments.front(), places);
            break;
        case Verb::measure:
            for (std::size_t i = 1; i < action.arguments.size(); ++i)
                add_place_of_name(circuit, action.arguments[i], places);
            break;
        case Verb::record: {
            std::string list = action.arguments.front() + ",";
            for (std::size_t comma = list.find(','); comma != std::string::npos; comma = list.find(',')) {
                add_place_of_name(circuit, list.substr(0, comma), places);
                list.erase(0, comma + 1);
            }
            break;
        }
        case Verb::fit:
            add_place_of_name(circuit, action.arguments.front(), places);
            break;
        case Verb::pull:
        case Verb::push:
        case Verb::unplug:
        case Verb::plug:
        case Verb::bridge:
        case Verb::swap:
        case Verb::inspect:
        case Verb::replace:
        case Verb::mend:
            for (const std::string& name : action.arguments) add_place_of_name(circuit, name, places);
            break;
        default:
            break;
    }
    return places;
}

double toll_of(const Circuit& circuit, const Action& action, double seconds, OpenPlaces& open) {
    double minutes = work_of(circuit, action) + seconds / 60;
    for (const int place : places_of(circuit, action)) {
        if (open[at(place)] != 0) continue;
        open[at(place)] = 1;
        minutes += circuit.places[at(place)].access_min;
    }
    return minutes;
}

}  // namespace halfsplit::practice
