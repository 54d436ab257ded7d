#pragma once

#include <string>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/model/read_circuit.h"

namespace halfsplit::files {

/// Reads texts from the file system, no larger than the engine accepts.
model::TextSource file_texts();

/// The file's text, or that it cannot be read.
tl::expected<std::string, Diagnostics> read_text(const std::string& path);

/// A circuit with all that was read for it: its own file, what it includes and its behaviours.
struct CircuitOnDisk {
    model::Circuit circuit;
    std::string content;  ///< all texts, in the order they were read, wherever they are
};
tl::expected<CircuitOnDisk, Diagnostics> read_circuit_on_disk(const std::string& path);

/// Writes the file so that whoever reads it, even if the program is killed meanwhile, finds all that was
/// there before or all of this. A pipe or device is written to as it is. False where that cannot be done;
/// then nothing has changed.
bool write_atomically(const std::string& path, std::string_view content);

}  // namespace halfsplit::files
