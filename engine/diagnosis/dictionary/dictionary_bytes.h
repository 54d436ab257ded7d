#pragma once

#include <string>
#include <string_view>

#include "engine/diagnosis/dictionary/dictionary.h"

namespace halfsplit::diagnosis {

/// What a dictionary predicts, as bytes to be kept until it is wanted again; faults, states and findings are
/// not in it, they follow from the circuit. For this machine and this version of the program, no exchange
/// format.
std::string to_bytes(const Dictionary& dictionary);

/// Puts kept predictions into a dictionary that has its faults, states and findings. False, and nothing is
/// changed, where they are damaged, or of another size or version.
bool from_bytes(std::string_view bytes, Dictionary& dictionary);

}  // namespace halfsplit::diagnosis
