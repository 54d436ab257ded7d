#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "engine/tracing/step.h"

namespace halfsplit::test {

/// "W5 S1.1-2 W3": the steps of a path by name.
inline std::string names(const tracing::Path& path) {
    std::string text;
    for (const tracing::Step& step : path.steps) text += (text.empty() ? "" : " ") + step.name;
    return text;
}

/// Sorted, so that a test does not depend on the order paths are found in.
inline std::vector<std::string> names(const std::vector<tracing::Path>& paths) {
    std::vector<std::string> all;
    for (const tracing::Path& path : paths) all.push_back(names(path));
    std::ranges::sort(all);
    return all;
}

}  // namespace halfsplit::test
