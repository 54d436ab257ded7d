#include <algorithm>
#include <limits>

#include "engine/diagnosis/dictionary/blank.h"
#include "engine/diagnosis/dictionary/finding_places.h"
#include "engine/diagnosis/dictionary/make_dictionary.h"
#include "engine/diagnosis/dictionary/pulses.h"
#include "engine/diagnosis/dictionary/row_anew.h"
#include "engine/diagnosis/dictionary/share_out.h"

namespace halfsplit::diagnosis {

namespace {

Told told_nothing(std::span<float> row) {
    std::ranges::fill(row, std::numeric_limits<float>::quiet_NaN());
    return Told::not_at_all;
}

}  // namespace

Told row_of_settled(const model::Circuit& circuit, const simulation::Settled& settled,
                    const std::vector<Finding>& findings, const Pulses& pulses, std::span<float> row) {
    const FindingPlaces places = places_of(circuit, findings, settled.network);
    const bool is_read = read_with_meters(places, settled.network, settled.point.conditions, row) &&
                         read_pulses(circuit, settled, findings, places, pulses, row);
    return is_read ? Told::exactly : told_nothing(row);
}

Told row_anew(const model::Circuit& circuit, const model::OperatingState& state,
              const std::vector<network::Fault>& faults, const std::vector<Finding>& findings,
              const Pulses& pulses, std::span<float> row) {
    network::Situation situation;
    situation.faults = faults;
    const auto settled = simulation::settle(circuit, situation, state.steps);
    return settled ? row_of_settled(circuit, *settled, findings, pulses, row) : told_nothing(row);
}

tl::expected<Dictionary, Diagnostics> dictionary_anew(const model::Circuit& circuit,
                                                      const DictionaryOptions& options,
                                                      const TellDictionary& tell) {
    auto blank = blank_dictionary(circuit, options, tell);
    if (!blank) return blank;
    Dictionary& dictionary = *blank;
    const int rows = dictionary.rows();
    const int all = static_cast<int>(dictionary.states.size()) * rows;
    share_out(
        all, options.threads,
        [&](int job, int) {
            const int state = job / rows;
            const int row = job % rows;
            std::vector<network::Fault> faults;
            if (row > 0) faults.push_back(dictionary.faults[at(row - 1)].fault);
            dictionary.told[at(job)] =
                row_anew(circuit, *circuit.find_state(dictionary.states[at(state)]), faults,
                         dictionary.findings, dictionary.pulses[at(state)], row_of(dictionary, state, row));
        },
        [&](int done) {
            if (tell) tell({done, all});
        });
    if (auto sound = check_sound_rows(dictionary); !sound) return tl::unexpected(sound.error());
    return blank;
}

}  // namespace halfsplit::diagnosis
