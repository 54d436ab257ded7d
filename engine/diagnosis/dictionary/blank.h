#pragma once

#include <span>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/diagnosis/dictionary/make_dictionary.h"

namespace halfsplit::diagnosis {

/// A dictionary of the right size with nothing in it yet but the sound vehicle, settled anew, or the states
/// that do not exist. `tell` hears after each state that none of the rows is done yet, and may throw.
tl::expected<Dictionary, Diagnostics> blank_dictionary(const model::Circuit& circuit,
                                                       const DictionaryOptions& options,
                                                       const TellDictionary& tell = {});

std::span<float> row_of(Dictionary& dictionary, int state, int row);

/// An error for each state that the sound vehicle does not come to.
tl::expected<void, Diagnostics> check_sound_rows(const Dictionary& dictionary);

}  // namespace halfsplit::diagnosis
