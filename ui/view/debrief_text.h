#pragma once

#include <string>
#include <vector>

#include "engine/practice/verdict/debrief.h"

namespace halfsplit::view {

/// One step of the session, looked at from behind.
struct DebriefRow {
    std::string clock;   ///< "12.5 min"
    std::string action;  ///< "measure voltmeter K2.87"
    std::string answer;  ///< what was found, in a line
    std::string left;    ///< how many suspects it left
    std::string remark;  ///< what was better, what it could not tell, which caution it broke
};
std::vector<DebriefRow> debrief_rows(const practice::Session& session, const practice::Expertise& expertise,
                                     const practice::Debrief& debrief);

/// "Right: …", "Not in order: …", one sentence or two.
std::string verdict_sentence(const practice::Session& session, const practice::Verdict& verdict);

/// Minutes against the best strategy and the budget; questions, hints, cautions: a sentence each.
std::vector<std::string> verdict_figures(const practice::Verdict& verdict);

/// What was hidden, where, and what one sees of it: a line a fault.
std::vector<std::string> hidden_lines(const practice::Scenario& scenario, const model::Circuit& circuit);

/// For a terminal.
std::string debrief_text(const practice::Session& session, const practice::Expertise& expertise,
                         const practice::Debrief& debrief);

}  // namespace halfsplit::view
