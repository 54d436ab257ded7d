#pragma once

#include <fstream>
#include <string>

#include "engine/model/read_circuit.h"
#include "engine/xml/limits.h"

namespace halfsplit::test {

/// A file of the project, by its path below the project's folder.
inline std::string project_file(const std::string& path) {
    return std::string(HALFSPLIT_SOURCE_DIR) + "/" + path;
}

/// The file's text, hardly more of it than the reader takes.
inline tl::expected<std::string, std::string> read_file(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file) return tl::unexpected(std::string("cannot open it"));
    std::string text;
    std::string block(std::size_t{1} << 16U, '\0');
    while (text.size() <= xml::kMaxBytes &&
           file.read(block.data(), static_cast<std::streamsize>(block.size())).gcount() > 0)
        text.append(block, 0, static_cast<std::size_t>(file.gcount()));
    return text;
}

}  // namespace halfsplit::test
