#pragma once

#include <map>
#include <memory>
#include <string>

#include <tl/expected.hpp>

#include "engine/practice/fairness/expertise.h"
#include "ui/files/scenario_file.h"
#include "ui/files/text_files.h"

namespace halfsplit::cli {

/// Circuits with their dictionaries, each worked out once however many scenarios are about it. What it hands
/// out borrows from it.
class KnownCircuits {
  public:
    explicit KnownCircuits(bool no_cache) : no_cache_(no_cache) {}

    tl::expected<practice::Expertise, Diagnostics> expertise_on(
        const practice::ScenarioWithCircuit& scenario);

  private:
    struct Known {
        files::CircuitOnDisk on_disk;
        diagnosis::Dictionary dictionary;
    };
    tl::expected<const Known*, Diagnostics> known(const std::string& path);

    bool no_cache_;
    std::map<std::string, std::unique_ptr<const Known>> known_;
};

}  // namespace halfsplit::cli
