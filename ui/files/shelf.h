#pragma once

#include <string>
#include <vector>

namespace halfsplit::files {

/// Circuits and jobs in a folder and the folders in it, sorted by name, as paths from where one stands; at
/// most some thousands, none where it cannot be read.
std::vector<std::string> files_to_open(const std::string& folder);

/// When any of the files was last written: changes when one of them does.
std::string written_when(const std::vector<std::string>& paths);

}  // namespace halfsplit::files
