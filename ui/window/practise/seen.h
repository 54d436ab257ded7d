#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <utility>

#include "engine/diagnosis/dictionary/sign.h"
#include "engine/practice/session/session.h"
#include "ui/window/paper/marks.h"

namespace halfsplit::window {

/// What somebody knows of a vehicle who has seen and done what stands in a log, and nothing else.
struct Seen {
    /// What was seen last of each part, by what it was seen at: {"P3": {"P3": "silent"}}.
    std::map<std::string, std::map<std::string, std::string>> parts;
    std::map<std::string, std::string> away;  ///< "pulled", "unplugged", by part or plug
    std::optional<std::pair<std::string, std::string>> jumper;
    std::map<std::string, std::string> readings;  ///< by point, since the vehicle was changed last
    std::map<std::string, std::string> suspects;  ///< own ones, by part or wire
};

Seen seen_in(const model::Circuit& circuit, std::span<const practice::Entry> entries);

Marks marks_of(const model::Circuit& circuit, const std::vector<diagnosis::SignSource>& sources,
               const Seen& seen);

/// Whether readings may be others after it.
bool changes_vehicle(practice::Verb verb);

}  // namespace halfsplit::window
