#include "ui/cli/prompt.h"

#include <editline/readline.h>
#include <unistd.h>

#include <cstdlib>
#include <cstring>
#include <iostream>
#include <memory>

namespace halfsplit::cli {

namespace {

/// The library asks a plain function, so what it completes to stands here while a prompt lives.
struct Completions {
    std::vector<std::string> verbs;
    std::vector<std::string> names;
    std::size_t next = 0;
    bool is_first_word = true;
};
std::unique_ptr<Completions>& completions() {
    static std::unique_ptr<Completions> all;
    return all;
}

char* next_completion(const char* begun, int how_many_before) {
    Completions& all = *completions();
    const std::vector<std::string>& words = all.is_first_word ? all.verbs : all.names;
    if (how_many_before == 0) all.next = 0;
    while (all.next < words.size()) {
        const std::string& word = words[all.next++];
        if (word.starts_with(begun)) return strdup(word.c_str());
    }
    return nullptr;
}

char** complete(const char* begun, int start, int) {
    completions()->is_first_word = start == 0;
    rl_attempted_completion_over = 1;
    return rl_completion_matches(begun, next_completion);
}

}  // namespace

Prompt::Prompt(std::vector<std::string> verbs, std::vector<std::string> names)
    : is_terminal_(isatty(STDIN_FILENO) != 0 && isatty(STDOUT_FILENO) != 0) {
    if (!is_terminal_) return;
    completions() = std::make_unique<Completions>(Completions{std::move(verbs), std::move(names)});
    rl_initialize();
    using_history();
    rl_attempted_completion_function = complete;
}

Prompt::~Prompt() {
    completions().reset();
}

std::optional<std::string> Prompt::next(const std::string& sign) {
    if (!is_terminal_) {
        std::string line;
        if (!std::getline(std::cin, line)) return std::nullopt;
        std::cout << sign << line << "\n";
        return line;
    }
    const std::unique_ptr<char, decltype(&std::free)> line(readline(sign.c_str()), &std::free);
    if (line == nullptr) {
        std::cout << "\n";
        return std::nullopt;
    }
    if (line.get()[0] != '\0') add_history(line.get());
    return std::string(line.get());
}

}  // namespace halfsplit::cli
