#pragma once

#include <string>

#include "engine/practice/scenario/read_scenario.h"
#include "engine/practice/session/session.h"

namespace halfsplit::cli {

struct DebriefOutput {
    std::string file;  ///< an HTML page; "": text on standard output
    bool no_cache = false;
};

/// Works the debrief out, with progress, and tells it. The exit status: that of the verdict.
int tell_debrief(const practice::Session& session, const practice::ScenarioWithCircuit& scenario,
                 const std::string& who, const DebriefOutput& output);

}  // namespace halfsplit::cli
