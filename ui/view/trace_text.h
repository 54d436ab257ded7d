#pragma once

#include <string>

#include "engine/tracing/trace.h"

namespace halfsplit::view {

/// A trace for people: each path as a table, one step a line, then what it shares, protects and takes with
/// it. Sound plug contacts are left out of the tables; bad and open ones are not.
std::string trace_text(const model::Circuit& circuit, const tracing::Trace& trace);

/// The ways from one thing to another, likewise.
std::string connection_text(const model::Circuit& circuit, const tracing::Connection& connection);

}  // namespace halfsplit::view
