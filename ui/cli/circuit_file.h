#pragma once

#include <string>

#include <tl/expected.hpp>

#include "engine/model/circuit.h"
#include "ui/files/text_files.h"

namespace halfsplit::cli {

using files::file_texts;
using files::read_text;

/// Prints one line an error, to standard error.
void print(const Diagnostics& problems);

/// Prints them, and hands the exit status on.
int refused(const Diagnostics& problems, int status);

/// What was asked for does not exist, or cannot be done: says so, and hands the exit status on.
int complain(const std::string& problem);

/// The circuit, or why it cannot be read.
tl::expected<model::Circuit, Diagnostics> read_circuit_file(const std::string& path);

/// To standard output where `path` is empty, else into that file, whole or not at all. The exit status, after
/// a message where it cannot be written.
int write_out(const std::string& text, const std::string& path);

}  // namespace halfsplit::cli
