#include <catch2/catch.hpp>

#include <sys/resource.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <regex>

#include "tests/cli/program.h"
#include "tests/support/sanitized.h"

using halfsplit::test::run_command;

namespace {

const std::regex& placed_error() {
    static const std::regex pattern(R"(^\S+\.(circuit\.xml|scxml):\d+:\d+: error: .+(; .+|did you mean .+))");
    return pattern;
}

/// 200 MB of elements opened in each other and never closed.
std::filesystem::path write_nesting() {
    const auto path = std::filesystem::temp_directory_path() /
                      ("halfsplit-nesting-" + std::to_string(getpid()) + ".circuit.xml");
    std::ofstream file(path, std::ios::binary);
    file << R"(<circuit xmlns="urn:halfsplit:circuit" version="1" id="a" title="A">)";
    std::string block;
    while (block.size() < (1U << 20U)) block += "<a>";
    for (int i = 0; i < 200; ++i) file << block;
    return path;
}

// Address space is limited with the shell's own means. The address sanitizer reserves terabytes of it; there
// the sanitizer's own limit of memory in use stands in (its shadow and quarantine included).
constexpr const char* kLimited = halfsplit::test::kSanitized
                                     ? "ASAN_OPTIONS=hard_rss_limit_mb=600:quarantine_size_mb=16 "
                                     : "ulimit -v 200000; ";

}  // namespace

TEST_CASE("Broken and hostile files are refused with their place, and in little memory") {
    std::vector<std::string> files{"unknown-attribute", "misspelt-id",  "missing-unit-value",
                                   "unclosed-element",  "include-loop", "include-outside",
                                   "entity-bomb",       "comma-number", "wire-to-nowhere"};
    for (std::string& file : files) file = "tests/data/broken/" + file + ".circuit.xml";
    for (const char* behaviour : {"missing-target", "unknown-element", "wrong-expression"})
        files.push_back("tests/data/broken/" + std::string(behaviour) + ".scxml");
    files.push_back("tests/data/broken/endless-loop.circuit.xml");
    const auto nesting = write_nesting();
    files.push_back(nesting.string());
    for (const std::string& file : files) {
        const auto ran = run_command(std::string(kLimited) + "'" HALFSPLIT_PROGRAM "' check '" + file + "'");
        INFO(file << "\n" << ran.err);
        CHECK(ran.status == 1);
        CHECK(ran.out.empty());
        CHECK(std::regex_search(ran.err, placed_error()));
    }
    std::filesystem::remove(nesting);
}
