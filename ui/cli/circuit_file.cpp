#include "ui/cli/circuit_file.h"

#include <filesystem>
#include <fstream>
#include <iostream>
#include <sstream>

#include "engine/xml/limits.h"

namespace halfsplit::cli {

model::TextSource file_texts() {
    return [](const std::string& path) -> tl::expected<std::string, std::string> {
        std::error_code error;
        const auto status = std::filesystem::status(path, error);
        if (!std::filesystem::exists(status)) return tl::unexpected(std::string("no such file"));
        if (!std::filesystem::is_regular_file(status))
            return tl::unexpected(std::string("is no ordinary file"));
        const auto size = std::filesystem::file_size(path, error);
        if (error) return tl::unexpected(error.message());
        if (size > xml::kMaxBytes)
            return tl::unexpected("is larger than " + std::to_string(xml::kMaxBytes >> 20) +
                                  " MiB, the most a circuit file may be");
        std::ifstream file(path, std::ios::binary);
        if (!file) return tl::unexpected(std::string("cannot be opened for reading"));
        std::ostringstream text;
        text << file.rdbuf();
        if (!file) return tl::unexpected(std::string("cannot be read"));
        return std::move(text).str();
    };
}

void print(const Diagnostics& problems) {
    for (const Diagnostic& problem : problems) std::cerr << to_text(problem) << "\n";
}

tl::expected<model::Circuit, Diagnostics> read_circuit_file(const std::string& path) {
    return model::read_circuit(path, file_texts());
}

}  // namespace halfsplit::cli
