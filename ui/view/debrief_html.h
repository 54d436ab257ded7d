#pragma once

#include <string>

#include "engine/practice/verdict/debrief.h"

namespace halfsplit::view {

/// The debrief as one HTML page to print on A4, with a plot of how the suspects became fewer.
std::string debrief_html(const practice::Session& session, const practice::Expertise& expertise,
                         const practice::Debrief& debrief, const std::string& who);

}  // namespace halfsplit::view
