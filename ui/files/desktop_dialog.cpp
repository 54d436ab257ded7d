#include "ui/files/desktop_dialog.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string_view>
#include <system_error>

namespace halfsplit::files {

namespace {

struct Dialog {
    std::string_view program;
    std::string_view command;  ///< prints the path that was chosen; whole, so that nothing has to be quoted
};

constexpr std::array<Dialog, 2> kDialogs{{
    {"zenity",
     "zenity --file-selection --title='Open a circuit or a job' "
     "--file-filter='Circuits and jobs | *.circuit.xml *.scenario.xml' --file-filter='All files | *'"},
    {"kdialog",
     "kdialog --title 'Open a circuit or a job' --getopenfilename . "
     "'*.circuit.xml *.scenario.xml|Circuits and jobs\n*|All files'"},
}};

bool is_along_path(std::string_view program) {
    namespace fs = std::filesystem;
    const char* path = std::getenv("PATH");
    std::string_view rest = path == nullptr ? "" : path;
    while (!rest.empty()) {
        const std::string_view folder = rest.substr(0, rest.find(':'));
        rest.remove_prefix(std::min(folder.size() + 1, rest.size()));
        std::error_code unknown;
        const fs::perms may = fs::status(fs::path(folder) / program, unknown).permissions();
        if (!unknown && (may & fs::perms::owner_exec) != fs::perms::none) return true;
    }
    return false;
}

}  // namespace

std::optional<std::string> desktop_dialog() {
    for (const Dialog& dialog : kDialogs)
        if (is_along_path(dialog.program)) return std::string(dialog.program);
    return std::nullopt;
}

std::optional<std::string> choose_file(const std::string& dialog) {
    for (const Dialog& each : kDialogs) {
        if (each.program != dialog) continue;
        std::FILE* answers = popen((std::string(each.command) + " 2>/dev/null").c_str(), "r");
        if (answers == nullptr) return std::nullopt;
        std::string path;
        for (int letter = std::fgetc(answers); letter != EOF && letter != '\n'; letter = std::fgetc(answers))
            path += static_cast<char>(letter);
        const bool is_chosen = pclose(answers) == 0 && !path.empty();
        return is_chosen ? std::optional(path) : std::nullopt;
    }
    return std::nullopt;
}

}  // namespace halfsplit::files
