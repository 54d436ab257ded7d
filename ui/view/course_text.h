#pragma once

#include <string>
#include <vector>

#include "engine/instruments/recorder.h"
#include "engine/model/circuit.h"
#include "engine/simulation/course_state.h"
#include "ui/view/table.h"

namespace halfsplit::view {

/// What happened and when, one row each: time, part, its title, what.
Table event_table(const model::Circuit& circuit, const std::vector<simulation::CourseEvent>& events);

/// One row a sample: time and a column a channel, with units in the headings.
Table recording_table(const std::vector<instruments::Channel>& channels,
                      const instruments::Recording& recording);

/// Both as one JSON object.
std::string course_json(const model::Circuit& circuit, const std::vector<instruments::Channel>& channels,
                        const instruments::Recording& recording,
                        const std::vector<simulation::CourseEvent>& events);

}  // namespace halfsplit::view
