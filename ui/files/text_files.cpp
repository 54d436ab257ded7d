#include "ui/files/text_files.h"

#include <unistd.h>

#include <algorithm>
#include <cstdint>
#include <filesystem>
#include <fstream>

#include "engine/xml/limits.h"

namespace halfsplit::files {

namespace {

namespace fs = std::filesystem;

bool write(const std::string& path, std::string_view content) {
    std::ofstream file(path, std::ios::binary);
    file.write(content.data(), static_cast<std::streamsize>(content.size()));
    file.close();
    return static_cast<bool>(file);
}

}  // namespace

model::TextSource file_texts() {
    return [](const std::string& path) -> tl::expected<std::string, std::string> {
        std::error_code error;
        const auto status = fs::status(path, error);
        if (!fs::exists(status)) return tl::unexpected(std::string("no such file"));
        if (!fs::is_regular_file(status)) return tl::unexpected(std::string("is no ordinary file"));
        std::ifstream file(path, std::ios::binary);
        if (!file) return tl::unexpected(std::string("cannot be opened for reading"));
        // One byte more than the engine takes lets it say so, with the place; more would only fill memory.
        const auto size = fs::file_size(path, error);
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

tl::expected<CircuitOnDisk, Diagnostics> read_circuit_on_disk(const std::string& path) {
    std::string content;
    const model::TextSource texts = file_texts();
    auto circuit = model::read_circuit(path, [&](const std::string& each) {
        auto text = texts(each);
        if (text) content += std::to_string(text->size()) + '\n' + *text;
        return text;
    });
    if (!circuit) return tl::unexpected(circuit.error());
    return CircuitOnDisk{std::move(*circuit), std::move(content)};
}

bool write_atomically(const std::string& path, std::string_view content) {
    std::error_code error;
    if (fs::exists(path, error) && !fs::is_regular_file(path, error)) return write(path, content);
    // What a link points to is replaced, not the link.
    const std::string target = fs::is_symlink(path, error) ? fs::canonical(path, error).string() : path;
    const std::string part = target + "." + std::to_string(getpid()) + ".part";
    if (write(part, content)) {
        fs::rename(part, target, error);
        if (!error) return true;
    }
    fs::remove(part, error);
    return false;
}

}  // namespace halfsplit::files
