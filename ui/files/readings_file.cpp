#include "ui/files/readings_file.h"

#include <filesystem>

namespace halfsplit::files {

namespace fs = std::filesystem;

std::string circuit_name(const std::string& circuit_path) {
    std::string name = fs::path(circuit_path).filename().string();
    for (const std::string ending : {".xml", ".circuit"})
        if (name.ends_with(ending)) name.resize(name.size() - ending.size());
    return name;
}

std::string readings_path(const std::string& circuit_path) {
    return circuit_name(circuit_path) + ".readings.csv";
}

std::string unused_path(const std::string& name, std::string_view ending) {
    std::string path = name + std::string(ending);
    for (int number = 2; is_there(path); ++number)
        path = name + "-" + std::to_string(number) + std::string(ending);
    return path;
}

bool is_there(const std::string& path) {
    std::error_code error;
    return fs::exists(fs::symlink_status(path, error));
}

bool put_aside(const std::string& path, const std::string& as) {
    std::error_code error;
    fs::rename(path, as, error);
    return !error;
}

std::string whole_path(const std::string& path) {
    std::error_code error;
    const fs::path whole = fs::absolute(path, error);
    return error ? path : whole.lexically_normal().string();
}

}  // namespace halfsplit::files
