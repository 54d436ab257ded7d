#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/diagnosis/dictionary/make_dictionary.h"
#include "engine/practice/fairness/expertise.h"
#include "ui/files/scenario_file.h"
#include "ui/files/text_files.h"

namespace halfsplit::files {

/// Circuits with their dictionaries, each worked out once however many scenarios are about it. What it hands
/// out borrows from it.
class KnownCircuits {
  public:
    /// Without `keeps`, .NAME.dictionary files are neither read nor written.
    explicit KnownCircuits(bool keeps, diagnosis::TellDictionary tell = {})
        : keeps_(keeps), tell_(std::move(tell)) {}

    tl::expected<practice::Expertise, Diagnostics> expertise_on(
        const practice::ScenarioWithCircuit& scenario);

  private:
    struct Known {
        CircuitOnDisk on_disk;
        diagnosis::Dictionary dictionary;
    };
    tl::expected<const Known*, Diagnostics> known(const std::string& path);

    bool keeps_;
    diagnosis::TellDictionary tell_;
    std::map<std::string, std::unique_ptr<const Known>> known_;
};

}  // namespace halfsplit::files
