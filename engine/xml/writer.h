#pragma once

#include <string>
#include <utility>
#include <vector>

namespace halfsplit::xml {

/// An element to be written. Texts are plain UTF-8: what XML wants escaped is escaped on the way out, and
/// control characters XML cannot hold are left out.
struct WrittenElement {
    std::string name;
    std::vector<std::pair<std::string, std::string>> attributes = {};
    std::string text = {};  ///< stands before the children
    std::vector<WrittenElement> children = {};

    /// The new last child; valid until the next one is added.
    WrittenElement& add(WrittenElement child);
};

enum class Declaration { with, without };

/// The element and all below it, one a line, indented; ends with a line end. A text stands on the line of its
/// element, untouched. Throws std::invalid_argument where a name is no XML name: names are ours, never data.
std::string written(const WrittenElement& root, Declaration declaration = Declaration::with);

}  // namespace halfsplit::xml
