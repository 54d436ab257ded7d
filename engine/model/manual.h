#pragma once

#include <string>

#include "engine/model/part_kind.h"

namespace halfsplit::model {

/// The reference page of all part kinds and the wire, in Markdown, written from their declarations: the text
/// of circuits/PARTS.md.
std::string parts_manual();

/// The section of one kind, or of the wire.
std::string part_manual(const PartKind& kind);

}  // namespace halfsplit::model
