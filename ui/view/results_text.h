#pragma once

#include <string>
#include <vector>

#include "engine/practice/results/class_table.h"
#include "ui/view/table.h"

namespace halfsplit::view {

/// One row a person, or a person and skill.
Table standing_table(const std::vector<practice::Standing>& standings);

/// One row a session, in the order they were begun.
Table session_table(const practice::ClassResults& results);

std::string recommendation_text(const std::string& who, const practice::Recommendation& next);

/// One JSON object a line, a session each.
std::string sessions_json_lines(const practice::ClassResults& results);
/// One JSON object: people, skills, sessions.
std::string results_json(const practice::ClassResults& results);

/// The class on one HTML page, with plots.
std::string results_html(const practice::ClassResults& results);

}  // namespace halfsplit::view
