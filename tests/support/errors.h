#pragma once

#include <catch2/catch.hpp>
#include <string>

#include "tests/support/circuits.h"

namespace halfsplit::test {

/// The one error of a circuit, which must stand where the snippet marks it.
inline std::string error_at_mark(const std::string& snippet) {
    const Marked marked = unmark(snippet);
    const auto result = read_text(marked.text);
    REQUIRE_FALSE(result);
    INFO(to_text(result.error().back()));
    CHECK(result.error().size() == 1);
    CHECK(result.error().front().where.file == "a.circuit.xml");
    CHECK(result.error().front().where.line == marked.line);
    CHECK(result.error().front().where.column == marked.column);
    return result.error().front().message;
}

inline std::string part_error(const std::string& parts) {
    return error_at_mark(circuit_text(parts));
}

}  // namespace halfsplit::test
