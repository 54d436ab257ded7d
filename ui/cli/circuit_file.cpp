#include "ui/cli/circuit_file.h"

#include <iostream>

#include "ui/cli/command.h"

namespace halfsplit::cli {

void print(const Diagnostics& problems) {
    for (const Diagnostic& problem : problems) std::cerr << to_text(problem) << "\n";
}

int refused(const Diagnostics& problems, int status) {
    print(problems);
    return status;
}

int complain(const std::string& problem) {
    std::cerr << "halfsplit: " << problem << "\n";
    return kUsage;
}

tl::expected<model::Circuit, Diagnostics> read_circuit_file(const std::string& path) {
    return model::read_circuit(path, file_texts());
}

int write_out(const std::string& text, const std::string& path) {
    if (path.empty()) {
        std::cout << text;
        return kDone;
    }
    if (files::write_atomically(path, text)) return kDone;
    return complain("cannot write " + path);
}

}  // namespace halfsplit::cli
