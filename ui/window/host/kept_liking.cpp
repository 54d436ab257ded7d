#include "ui/window/host/kept_liking.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <system_error>

#include "ui/files/text_files.h"

namespace halfsplit::window {

namespace {

std::filesystem::path file_of_liking() {
    if (const char* config = std::getenv("XDG_CONFIG_HOME"); config != nullptr && *config != '\0')
        return std::filesystem::path(config) / "halfsplit" / "window.json";
    const char* home = std::getenv("HOME");
    if (home == nullptr || *home == '\0') return {};
    return std::filesystem::path(home) / ".config" / "halfsplit" / "window.json";
}

}  // namespace

std::optional<Liking> kept_liking() {
    const auto text = files::read_text(file_of_liking().string());
    if (!text) return std::nullopt;
    const nlohmann::json read = nlohmann::json::parse(*text, nullptr, false);
    if (!read.is_object()) return std::nullopt;
    Liking liking;
    if (const auto scale = read.find("scale"); scale != read.end() && scale->is_number())
        liking.scale = std::clamp(scale->get<double>(), kLeastScale, kMostScale);
    if (const auto dark = read.find("dark"); dark != read.end() && dark->is_boolean())
        liking.dark = dark->get<bool>();
    return liking;
}

void keep_liking(const Liking& liking) {
    const std::filesystem::path file = file_of_liking();
    if (file.empty()) return;
    std::error_code ignored;
    std::filesystem::create_directories(file.parent_path(), ignored);
    files::write_atomically(file.string(),
                            nlohmann::json{{"scale", liking.scale}, {"dark", liking.dark}}.dump() + "\n");
}

}  // namespace halfsplit::window
