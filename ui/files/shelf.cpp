#include "ui/files/shelf.h"

#include <algorithm>
#include <filesystem>
#include <system_error>

namespace halfsplit::files {

namespace fs = std::filesystem;

namespace {

/// A folder of jobs within a folder of projects is found; a whole disk is not searched.
constexpr int kDeepest = 1;
constexpr std::size_t kMost = 5000;

bool is_to_open(const std::string& name) {
    return name.ends_with(".circuit.xml") || name.ends_with(".scenario.xml");
}

}  // namespace

std::vector<std::string> files_to_open(const std::string& folder) {
    std::vector<std::string> found;
    std::error_code ended;
    fs::recursive_directory_iterator each(folder, fs::directory_options::skip_permission_denied, ended);
    for (; !ended && each != fs::recursive_directory_iterator() && found.size() < kMost;
         each.increment(ended)) {
        std::error_code unknown;
        if (each.depth() >= kDeepest && each->is_directory(unknown)) each.disable_recursion_pending();
        if (each->is_regular_file(unknown) && is_to_open(each->path().filename().string()))
            found.push_back(each->path().lexically_normal().string());
    }
    std::ranges::sort(found);
    return found;
}

std::string written_when(const std::vector<std::string>& paths) {
    std::string when;
    for (const std::string& path : paths) {
        std::error_code unknown;
        const auto time = fs::last_write_time(path, unknown);
        when += unknown ? "-" : std::to_string(time.time_since_epoch().count());
        when += ' ';
    }
    return when;
}

}  // namespace halfsplit::files
