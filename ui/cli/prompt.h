#pragma once

#include <optional>
#include <string>
#include <vector>

namespace halfsplit::cli {

/// Where somebody types: on a terminal with history and completion, over a pipe line by line, what was read
/// being echoed so that the output alone reads well.
class Prompt {
  public:
    /// `words`: what the tab key completes to, the first word of a line to `verbs`, the others to `names`.
    Prompt(std::vector<std::string> verbs, std::vector<std::string> names);
    Prompt(const Prompt&) = delete;
    Prompt& operator=(const Prompt&) = delete;
    ~Prompt();

    /// The next line; nullopt at the end of input.
    std::optional<std::string> next(const std::string& sign);

    bool is_terminal() const { return is_terminal_; }

  private:
    bool is_terminal_;
};

}  // namespace halfsplit::cli
