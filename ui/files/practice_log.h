#pragma once

#include <string>

#include <tl/expected.hpp>

#include "ui/files/scenario_file.h"
#include "ui/files/session_file.h"

namespace halfsplit::files {

/// ISO 8601, UTC.
std::string now_utc();

/// Who sits here, as the system calls them.
std::string user_name();

/// The log to go on with, or the name of a new one, in the working directory: the first of ID.session.jsonl,
/// ID-2.session.jsonl … that is not there, or of this very job and not over.
std::string default_log(const ScenarioOnDisk& scenario);

/// Goes on with the log at `path`, or begins one there. `scenario_file` is written down in it as it is named.
/// An error: it cannot be written, another program writes it, or it is about another job.
tl::expected<SessionLog, std::string> open_log(const std::string& path, const ScenarioOnDisk& scenario,
                                               const std::string& scenario_file, const std::string& who);

}  // namespace halfsplit::files
