#pragma once

#include <string>

namespace halfsplit::test {

/// `text` so many times over.
inline std::string times(int count, const std::string& text) {
    std::string all;
    for (int i = 0; i < count; ++i) all += text;
    return all;
}

}  // namespace halfsplit::test
