#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "engine/model/part_kind.h"

namespace halfsplit::model {

/// A child element that may stand in another.
struct ChildSpec {
    std::string_view element;
    bool required = false;
    bool repeated = false;
};

/// An element of circuit files that is no part: declared once, like the part kinds, for the reader and the
/// schema.
struct StructureSpec {
    std::string_view element;
    std::string_view text;
    std::vector<WordSpec> words = {};
    std::vector<NumberSpec> numbers = {};
    std::vector<ChildSpec> children = {};
    bool ordered = false;   ///< the children stand in the order declared
    bool has_text = false;  ///< character data is allowed
};

/// All of them. "part" stands for every part kind: what each of them takes besides its own attributes and the
/// common ones.
std::span<const StructureSpec> structures();

/// `element` must be one of them (std::logic_error otherwise).
const StructureSpec& structure(std::string_view element);

/// The id no part, wire or quantity may have: voltages are given against it.
inline constexpr std::string_view kBodyId = "body";

/// The namespace and extension of circuit files.
inline constexpr std::string_view kCircuitNamespace = "urn:halfsplit:circuit";

/// Contacts of one coupling; the largest bulkhead connectors have about 120.
inline constexpr int kMaxCouplingContacts = 250;

}  // namespace halfsplit::model
