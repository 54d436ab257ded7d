#include "engine/diagnosis/dictionary/blank.h"

#include <algorithm>
#include <limits>

#include "engine/base/nearest.h"
#include "engine/diagnosis/dictionary/pulses.h"
#include "engine/diagnosis/dictionary/row_anew.h"
#include "engine/diagnosis/dictionary/share_out.h"
#include "engine/simulation/settle.h"

namespace halfsplit::diagnosis {

namespace {

std::vector<std::string> ids_of(const std::vector<model::OperatingState>& states) {
    std::vector<std::string> ids;
    ids.reserve(states.size());
    for (const model::OperatingState& state : states) ids.push_back(state.id);
    return ids;
}

/// What pulses in the sound vehicle, and its row.
void take_sound_vehicle(const model::Circuit& circuit, Dictionary& blank, int state) {
    const auto& steps = circuit.find_state(blank.states[at(state)])->steps;
    const std::span<float> row = row_of(blank, state, 0);
    Pulses& pulses = blank.pulses[at(state)];
    Told& told = blank.told[at(state) * at(blank.rows())];
    if (const auto settled = simulation::settle(circuit, {}, steps)) {
        pulses = pulses_of(circuit, *settled, blank.findings);
        told = row_of_settled(circuit, *settled, blank.findings, pulses, row);
    } else {
        pulses.of.assign(blank.findings.size(), Pulse::none);
        told = Told::not_at_all;
        std::ranges::fill(row, std::numeric_limits<float>::quiet_NaN());
    }
}

}  // namespace

tl::expected<Dictionary, Diagnostics> blank_dictionary(const model::Circuit& circuit,
                                                       const DictionaryOptions& options,
                                                       const TellDictionary& tell) {
    const std::vector<std::string> known = ids_of(circuit.states);
    Diagnostics problems;
    for (const std::string& id : options.states)
        if (circuit.find_state(id) == nullptr)
            problems.push_back(problem("the circuit has no state '" + id + "'" + did_you_mean(id, known)));
    if (!problems.empty()) return tl::unexpected(problems);
    Dictionary blank;
    blank.faults = options.faults.empty() ? fault_universe(circuit) : options.faults;
    blank.states = options.states.empty() ? known : options.states;
    blank.findings = findings_of(circuit);
    blank.findings.insert(blank.findings.end(), options.further_findings.begin(),
                          options.further_findings.end());
    blank.values.resize(blank.row_start(static_cast<int>(blank.states.size()), 0));
    blank.told.resize(blank.states.size() * at(blank.rows()));
    blank.pulses.resize(blank.states.size());
    const int states = static_cast<int>(blank.states.size());
    share_out(
        states, options.threads,
        [&](int state, int /*thread*/) { take_sound_vehicle(circuit, blank, state); },
        [&](int /*done*/) {
            if (tell) tell({0, states * blank.rows()});
        });
    return blank;
}

std::span<float> row_of(Dictionary& dictionary, int state, int row) {
    return std::span(dictionary.values).subspan(dictionary.row_start(state, row), dictionary.findings.size());
}

tl::expected<void, Diagnostics> check_sound_rows(const Dictionary& dictionary) {
    Diagnostics problems;
    for (int state = 0; state < static_cast<int>(dictionary.states.size()); ++state)
        if (dictionary.told_of(state, 0) == Told::not_at_all)
            problems.push_back(problem("the sound vehicle does not come to rest in state '" +
                                       dictionary.states[at(state)] + "'"));
    if (!problems.empty()) return tl::unexpected(problems);
    return {};
}

}  // namespace halfsplit::diagnosis
