#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "engine/diagnosis/dictionary/dictionary.h"

namespace halfsplit::files {

/// What a dictionary predicts, to the bit, as bytes to be kept until it is wanted again; faults, states and
/// findings are not in it, they follow from the circuit. A fault changes little of what is found: of each row
/// only what differs from the sound vehicle's is kept, and that compressed (Zstandard, RFC 8878). For this
/// machine and this version of the program, no exchange format. Nothing where it would be more bytes than
/// `most`. At work with so many threads.
std::optional<std::string> packed(const diagnosis::Dictionary& dictionary, std::size_t most, int threads);

/// Puts kept predictions into a dictionary that has its faults, states and findings. False where they are
/// damaged, or of another size or version; what the dictionary then predicts is of no use.
bool unpack(std::string_view bytes, diagnosis::Dictionary& dictionary, int threads);

}  // namespace halfsplit::files
