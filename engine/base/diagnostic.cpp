#include "engine/base/diagnostic.h"

#include <utility>

namespace halfsplit {

Diagnostic problem(std::string message) {
    return {{}, std::move(message)};
}

Diagnostics one_problem(std::string message) {
    Diagnostics problems;
    problems.push_back(problem(std::move(message)));
    return problems;
}

std::string to_text(const Diagnostic& diagnostic) {
    std::string text;
    if (!diagnostic.where.file.empty()) text += diagnostic.where.file + ":";
    if (diagnostic.where.line > 0) {
        text += std::to_string(diagnostic.where.line) + ":";
        if (diagnostic.where.column > 0) text += std::to_string(diagnostic.where.column) + ":";
    }
    return text.empty() ? "error: " + diagnostic.message : text + " error: " + diagnostic.message;
}

}  // namespace halfsplit
