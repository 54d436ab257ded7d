#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;

/// What each folder may include besides itself: design of the layers, dependencies downwards only.
const std::map<std::string, std::vector<std::string>>& allowed_includes() {
    static const std::map<std::string, std::vector<std::string>> allowed = [] {
        std::map<std::string, std::vector<std::string>> table;
        std::vector<std::string> below;
        for (const char* layer :
             {"engine/base", "engine/xml", "engine/model", "engine/network", "engine/simulation"}) {
            table[layer] = below;
            below.emplace_back(layer);
        }
        for (const char* sibling : {"engine/instruments", "engine/tracing"}) table[sibling] = below;
        for (const char* sibling : {"engine/instruments", "engine/tracing"}) below.emplace_back(sibling);
        for (const char* layer : {"engine/diagnosis", "engine/practice", "ui/view", "ui/files"}) {
            table[layer] = below;
            below.emplace_back(layer);
        }
        table["ui/cli"] = below;
        table["ui/window"] = below;
        return table;
    }();
    return allowed;
}

/// "engine/network" of "engine/network/nodal/solver.h" or "engine/model/kinds/fuse.cpp".
std::string layer_of(const std::string& path) {
    const std::size_t first = path.find('/');
    const std::size_t second = path.find('/', first + 1);
    return path.substr(0, second);
}

struct Include {
    std::string file;
    int line = 0;
    std::string target;
    bool quoted = false;
};

std::vector<Include> includes_of(const fs::path& root) {
    static const std::regex pattern(R"(^\s*#\s*include\s*([<"])([^>"]+)[>"])");
    std::vector<Include> includes;
    for (const char* top : {"engine", "ui"})
        for (const auto& entry : fs::recursive_directory_iterator(root / top)) {
            const std::string extension = entry.path().extension().string();
            if (extension != ".h" && extension != ".cpp") continue;
            std::ifstream file(entry.path());
            std::string text;
            for (int line = 1; std::getline(file, text); ++line)
                if (std::smatch match; std::regex_search(text, match, pattern))
                    includes.push_back({fs::relative(entry.path(), root).generic_string(), line, match[2],
                                        match[1] == "\""});
        }
    return includes;
}

bool may_include(const std::string& from, const std::string& to) {
    if (from == to) return true;
    const auto rule = allowed_includes().find(from);
    return rule != allowed_includes().end() && std::ranges::find(rule->second, to) != rule->second.end();
}

}  // namespace

TEST_CASE("No include points upwards or sideways") {
    const std::vector<Include> includes = includes_of(HALFSPLIT_SOURCE_DIR);
    REQUIRE(includes.size() > 100);
    for (const Include& include : includes) {
        if (!include.quoted) continue;
        INFO(include.file << ":" << include.line << " includes " << include.target);
        // The command that opens the window, and no other.
        const bool opens_window =
            include.file == "ui/cli/window_command.cpp" && include.target == "ui/window/host/open_window.h";
        CHECK((opens_window || may_include(layer_of(include.file), layer_of(include.target))));
    }
}

TEST_CASE("Nodal analysis knows branches and nothing of circuits and faults") {
    int seen = 0;
    for (const Include& include : includes_of(HALFSPLIT_SOURCE_DIR)) {
        if (!include.file.starts_with("engine/network/nodal/")) continue;
        if (!include.target.starts_with("engine/network/")) continue;
        INFO(include.file << ":" << include.line << " includes " << include.target);
        ++seen;
        CHECK(include.target.starts_with("engine/network/nodal/"));
    }
    CHECK(seen > 0);
}

TEST_CASE("Only engine/xml sees the XML library, and no engine folder sees a user interface") {
    for (const Include& include : includes_of(HALFSPLIT_SOURCE_DIR)) {
        INFO(include.file << ":" << include.line << " includes " << include.target);
        const bool is_xml = include.target.find("pugixml") != std::string::npos;
        CHECK((!is_xml || layer_of(include.file) == "engine/xml"));
        const bool is_interface = include.target.starts_with("CLI/") || include.target.starts_with("imgui") ||
                                  include.target.starts_with("GLFW") || include.target == "iostream" ||
                                  include.target == "fstream";
        CHECK((!is_interface || include.file.starts_with("ui/")));
    }
}

TEST_CASE("No file of the engine is longer than 400 lines") {
    for (const auto& entry : fs::recursive_directory_iterator(fs::path(HALFSPLIT_SOURCE_DIR) / "engine")) {
        if (!entry.is_regular_file()) continue;
        std::ifstream file(entry.path());
        const auto lines =
            std::count(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>(), '\n');
        INFO(entry.path().string());
        CHECK(lines <= 400);
    }
}

TEST_CASE("No test name holds a semicolon, which would split it into names that match nothing") {
    static const std::regex pattern(R"re(TEST_CASE\s*\(\s*"([^"]*)")re");
    for (const auto& entry : fs::recursive_directory_iterator(fs::path(HALFSPLIT_SOURCE_DIR) / "tests")) {
        if (entry.path().extension() != ".cpp") continue;
        std::ifstream file(entry.path());
        const std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
        for (auto match = std::sregex_iterator(text.begin(), text.end(), pattern);
             match != std::sregex_iterator(); ++match) {
            INFO(entry.path().string());
            CHECK((*match)[1].str().find(';') == std::string::npos);
        }
    }
}
