#include "ui/cli/circuit_file.h"

#include <algorithm>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iostream>

#include "engine/xml/limits.h"

namespace halfsplit::cli {

model::TextSource file_texts() {
    return [](const std::string& path) -> tl::expected<std::string, std::string> {
        std::error_code error;
        const auto status = std::filesystem::status(path, error);
        if (!std::filesystem::exists(status)) return tl::unexpected(std::string("no such file"));
        if (!std::filesystem::is_regular_file(status))
            return tl::unexpected(std::string("is no ordinary file"));
        std::ifstream file(path, std::ios::binary);
        if (!file) return tl::unexpected(std::string("cannot be opened for reading"));
        // One byte more than the engine takes lets it say so, with the place; more would only fill memory.
        const auto size = std::filesystem::file_size(path, error);
        std::string text(std::min<std::uintmax_t>(error ? 0 : size, xml::kMaxBytes + 1), '\0');
        file.read(text.data(), static_cast<std::streamsize>(text.size()));
        if (file.bad()) return tl::unexpected(std::string("cannot be read"));
        text.resize(static_cast<std::size_t>(file.gcount()));
        return text;
    };
}

tl::expected<std::string, Diagnostics> read_text(const std::string& path) {
    return file_texts()(path).map_error([&](const std::string& why) {
        return Diagnostics{{Location{path, 0, 0}, why}};
    });
}

void print(const Diagnostics& problems) {
    for (const Diagnostic& problem : problems) std::cerr << to_text(problem) << "\n";
}

tl::expected<model::Circuit, Diagnostics> read_circuit_file(const std::string& path) {
    return model::read_circuit(path, file_texts());
}

}  // namespace halfsplit::cli
