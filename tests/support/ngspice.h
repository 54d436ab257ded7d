#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

namespace halfsplit::test {

/// The circuit simulator ngspice, run in this process through its shared library. It keeps its state in
/// globals of that library, so there is one of it whatever the number of these objects, and no two threads
/// may use it. What it prints is swallowed; the errors among it are returned.
class Ngspice {
  public:
    using Done = tl::expected<void, std::string>;

    Ngspice();

    /// Replaces the circuit by a deck, one line an element, the first line its title, without the line
    /// `.end`.
    Done load(const std::vector<std::string>& deck);

    /// Any interactive command; an error if ngspice prints one.
    Done command(const std::string& text);

    /// The operating point. Results of earlier analyses are thrown away.
    Done operating_point();

    /// The potential of a node of the deck, or the value of any vector, after an analysis.
    tl::expected<double, std::string> value(const std::string& vector) const;
    /// All values of a vector, one per point of the analysis.
    tl::expected<std::vector<double>, std::string> values(const std::string& vector) const;
};

}  // namespace halfsplit::test
