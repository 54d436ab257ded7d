#pragma once

#include <string>

#include <tl/expected.hpp>

#include "engine/practice/scenario/read_scenario.h"

namespace halfsplit::files {

struct ScenarioOnDisk {
    practice::ScenarioWithCircuit read;
    std::string
        content;  ///< a UUID (version 5, RFC 9562) of all texts that were read, whatever they are called
};

tl::expected<ScenarioOnDisk, Diagnostics> read_scenario_on_disk(const std::string& path);

}  // namespace halfsplit::files
