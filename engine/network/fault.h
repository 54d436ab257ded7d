#pragma once

#include <optional>
#include <string>
#include <string_view>

#include <tl/expected.hpp>

#include "engine/model/circuit.h"

namespace halfsplit::network {

/// What a fault sits on.
enum class FaultSubject { part, contact, plug, wire };

/// A chafed wire fails only while a quantity of the world lies within a range.
struct Chafing {
    bool shorts = false;  ///< false: opens
    std::string quantity;
    double low = 0;
    double high = 0;
};

/// One fault, resolved against a circuit. Written `kind:where[=value]`, the same everywhere.
struct Fault {
    const model::FaultSpec* spec = nullptr;
    FaultSubject subject = FaultSubject::part;
    int part = -1;        ///< index; also the part a contact or plug belongs to
    int pin = -1;         ///< contacts: index of the part's pin (of a coupling: its `a` side)
    int wire = -1;        ///< index
    int other = -1;       ///< second pin or wire, where the kind joins two
    std::string element;  ///< of the part, where the fault sits on one; "" = as the spec says
    double value = 0;
    std::optional<Chafing> chafing;
    std::string text;  ///< canonical `kind:where[=value]`
};

/// Reads one specification. The message says what is wrong and what would have been right.
tl::expected<Fault, std::string> parse_fault(const model::Circuit& circuit, std::string_view text);

}  // namespace halfsplit::network
