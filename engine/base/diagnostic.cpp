#include "engine/base/diagnostic.h"

namespace halfsplit {

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
