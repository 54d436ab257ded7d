#include "tests/cli/program.h"

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace halfsplit::test {

namespace {

std::string text_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

}  // namespace

Ran run_command(const std::string& command) {
    const auto folder =
        std::filesystem::temp_directory_path() / ("halfsplit-cli-" + std::to_string(getpid()));
    std::filesystem::create_directories(folder);
    const std::string line = "cd '" HALFSPLIT_SOURCE_DIR "' && { " + command + "\n} >'" +
                             (folder / "out").string() + "' 2>'" + (folder / "err").string() + "' </dev/null";
    const int result = std::system(line.c_str());
    Ran ran{WIFEXITED(result) ? WEXITSTATUS(result) : -1, text_of(folder / "out"), text_of(folder / "err")};
    std::filesystem::remove_all(folder);
    return ran;
}

Ran run_program(const std::string& arguments) {
    return run_command("'" HALFSPLIT_PROGRAM "' " + arguments);
}

}  // namespace halfsplit::test
