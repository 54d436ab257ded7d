#pragma once

#include <string>

#include <tl/expected.hpp>

#include "engine/model/circuit.h"
#include "engine/model/read_circuit.h"

namespace halfsplit::cli {

/// Reads texts from the file system, no larger than the engine accepts.
model::TextSource file_texts();

/// The file's text, or that it cannot be read.
tl::expected<std::string, Diagnostics> read_text(const std::string& path);

/// Prints one line an error, to standard error.
void print(const Diagnostics& problems);

/// The circuit, or nothing after its errors were printed.
tl::expected<model::Circuit, Diagnostics> read_circuit_file(const std::string& path);

}  // namespace halfsplit::cli
