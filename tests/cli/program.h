#pragma once

#include <string>

namespace halfsplit::test {

inline const std::string kHorn = "circuits/horn.circuit.xml";

inline bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

struct Ran {
    int status = 0;  ///< exit status, or -1 where a signal ended it
    std::string out;
    std::string err;
};

/// Runs `halfsplit ARGUMENTS` from the project's top folder, as a person's shell would.
Ran run_program(const std::string& arguments);

/// Runs any command line there.
Ran run_command(const std::string& command);

}  // namespace halfsplit::test
