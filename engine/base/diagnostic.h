#pragma once

#include <string>
#include <vector>

namespace halfsplit {

/// Where in a text file something stands. Lines and columns count from 1 (columns in code points); 0 =
/// unknown.
struct Location {
    std::string file;
    int line = 0;
    int column = 0;
};

/// One thing wrong with what a person wrote: what it is, and what was expected instead.
struct Diagnostic {
    Location where;
    std::string message;
};

using Diagnostics = std::vector<Diagnostic>;

/// A problem with what was asked for rather than with a file: no location.
Diagnostic problem(std::string message);
Diagnostics one_problem(std::string message);

/// `file:line:column: error: message`; the parts of the location that are unknown are left out.
std::string to_text(const Diagnostic& diagnostic);

}  // namespace halfsplit
