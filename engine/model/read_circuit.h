#pragma once

#include <functional>
#include <optional>
#include <string>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/model/circuit.h"

namespace halfsplit::model {

/// Hands over a file's text, or why it cannot: the engine itself opens no files.
using TextSource = std::function<tl::expected<std::string, std::string>(const std::string& path)>;

/// Reads a circuit and all it includes, checks everything, and collects every error it can find.
/// Never a partly read circuit: either all of it is right, or the diagnostics say what is not.
/// Input is untrusted; limits in engine/xml/limits.h.
tl::expected<Circuit, Diagnostics> read_circuit(const std::string& path, const TextSource& source);

}  // namespace halfsplit::model
