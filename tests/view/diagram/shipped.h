#pragma once

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

namespace halfsplit::test {

/// Paths of all circuits of the project, below its top folder.
inline std::vector<std::string> shipped_circuits() {
    std::vector<std::string> paths;
    const std::filesystem::path folder = std::filesystem::path(HALFSPLIT_SOURCE_DIR) / "circuits";
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        if (entry.path().string().ends_with(".circuit.xml"))
            paths.push_back("circuits/" + entry.path().filename().string());
    std::sort(paths.begin(), paths.end());
    return paths;
}

}  // namespace halfsplit::test
