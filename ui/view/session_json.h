#pragma once

#include <string>
#include <string_view>

#include <tl/expected.hpp>

#include "engine/practice/session/session.h"

namespace halfsplit::view {

/// The first line of a session's log.
struct SessionHead {
    std::string id;        ///< this session's own
    std::string who;       ///< who practised, as they call themselves
    std::string scenario;  ///< id of the scenario
    std::string file;      ///< its file, as it was named
    std::string content;   ///< of scenario and circuit: another content, another job
    std::string begun;     ///< ISO 8601, UTC

    friend bool operator==(const SessionHead&, const SessionHead&) = default;
};

// One JSON object a line, without its line end. Nothing in a line says what is hidden in the scenario.
std::string head_line(const SessionHead& head);
std::string entry_line(const practice::Entry& entry);

/// A message where it is no such line.
tl::expected<SessionHead, std::string> read_head_line(std::string_view line);
tl::expected<practice::Entry, std::string> read_entry_line(std::string_view line);

}  // namespace halfsplit::view
