#pragma once

#include <string>

#include "engine/practice/scenario/scenario.h"

namespace halfsplit::window {

/// A job about the circuit in which nothing is said yet: usual mileage and minutes, all instruments.
practice::Scenario new_job(const model::Circuit& circuit);

/// The job for the circuit as it is `now`, after its file was changed: without faults, symptoms and an
/// arrival of which there is nothing any more.
practice::Scenario carried_over(const practice::Scenario& job, const model::Circuit& before,
                                const model::Circuit& now);

/// Its circuit as a file at `job_path` has to name it.
std::string href_to(const std::string& circuit_path, const std::string& job_path);

}  // namespace halfsplit::window
