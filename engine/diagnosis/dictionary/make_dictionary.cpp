#include "engine/diagnosis/dictionary/make_dictionary.h"
#include "engine/diagnosis/dictionary/blank.h"
#include "engine/diagnosis/dictionary/share_out.h"
#include "engine/diagnosis/dictionary/state_rows.h"

namespace halfsplit::diagnosis {

tl::expected<Dictionary, Diagnostics> make_dictionary(const model::Circuit& circuit,
                                                      const DictionaryOptions& options,
                                                      const TellDictionary& tell) {
    auto blank = blank_dictionary(circuit, options, tell);
    if (!blank) return blank;
    Dictionary& dictionary = *blank;
    const int all = static_cast<int>(dictionary.states.size()) * dictionary.rows();
    const bool settles_anew = options.settle_anew && dictionary.rows() <= options.settles_at_most;
    const auto tell_done = [&](int done) {
        if (tell) tell({done, all});
    };
    for (int state = 0; state < static_cast<int>(dictionary.states.size()); ++state) {
        auto base =
            StateBase::of(circuit, *circuit.find_state(dictionary.states[at(state)]), dictionary.findings);
        if (!base) return tl::unexpected(base.error());
        StateRows rows(circuit, *base, options.threads, settles_anew, dictionary, state);
        share_out(
            dictionary.rows(), options.threads, [&](int row, int thread) { rows.fill(row, thread); },
            [&](int done) { tell_done(state * dictionary.rows() + done); });
    }
    tell_done(all);
    if (auto sound = check_sound_rows(dictionary); !sound) return tl::unexpected(sound.error());
    return blank;
}

}  // namespace halfsplit::diagnosis
