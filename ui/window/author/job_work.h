#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/practice/draft/symptoms.h"
#include "engine/practice/fairness/fairness.h"
#include "ui/files/text_files.h"
#include "ui/window/frame/task.h"

namespace halfsplit::window {

/// A circuit with everything that is known of its faults.
struct KnownFaults {
    std::shared_ptr<const files::CircuitOnDisk> on_disk;
    diagnosis::Dictionary dictionary;
};
using Predicted = tl::expected<std::shared_ptr<const KnownFaults>, Diagnostics>;

/// Predicts, or takes what is kept beside the circuit's file.
std::function<Predicted(Progress&)> prediction_work(std::shared_ptr<const files::CircuitOnDisk> on_disk,
                                                    const std::string& path);

/// What a customer may notice of the fault: one per state in which it shows.
struct Noticed {
    int state = 0;  ///< of the circuit
    std::vector<practice::Symptom> symptoms;
    std::string words;  ///< "Key on: the low note horn stays silent"
};
std::vector<Noticed> noticed_of(const KnownFaults& known, const std::string& fault);

/// What was proved of a job, in words.
struct Proved {
    Diagnostics problems;
    std::string summary;           ///< "fair; best strategy 12.0 min and 5 tests, 7 suspects at first"
    std::vector<std::string> way;  ///< the best strategy, a line a step
};
std::function<Proved(Progress&)> proof_work(std::shared_ptr<const KnownFaults> known,
                                            practice::Scenario scenario);

}  // namespace halfsplit::window
