#pragma once

#include <string>

namespace halfsplit::model {

/// The reference page of all part kinds and the wire, in Markdown, written from their declarations: the text
/// of circuits/PARTS.md.
std::string parts_manual();

}  // namespace halfsplit::model
