#pragma once

#include <map>
#include <string>

#include "engine/model/read_circuit.h"
#include "tests/support/marked.h"

namespace halfsplit::test {

/// Files in memory, by path.
using Files = std::map<std::string, std::string>;

/// What control units do in tests that are not about that: nothing.
inline constexpr const char* kIdleBehaviour =
    "<scxml xmlns='http://www.w3.org/2005/07/scxml' version='1.0'><state id='idle'/></scxml>";

inline model::TextSource source_of(const Files& files) {
    return [files](const std::string& path) -> tl::expected<std::string, std::string> {
        if (path.ends_with(".scxml") && !files.contains(path)) return std::string(kIdleBehaviour);
        const auto found = files.find(path);
        if (found == files.end()) return tl::unexpected(std::string("no such file"));
        return found->second;
    };
}

/// A circuit around the snippets a test is about.
inline std::string circuit_text(const std::string& parts, const std::string& harness = "",
                                const std::string& states = "", const std::string& before_parts = "") {
    std::string text =
        "<circuit xmlns=\"urn:halfsplit:circuit\" version=\"1\" id=\"test\" title=\"Test\">\n"
        "<about>A test.</about>\n" +
        before_parts + "<parts>" + parts + "</parts>\n";
    if (!harness.empty()) text += "<harness>" + harness + "</harness>\n";
    if (!states.empty()) text += "<operating-states>" + states + "</operating-states>\n";
    return text + "</circuit>\n";
}

inline tl::expected<model::Circuit, Diagnostics> read_text(const std::string& text) {
    return model::read_circuit("a.circuit.xml", source_of({{"a.circuit.xml", text}}));
}

}  // namespace halfsplit::test
