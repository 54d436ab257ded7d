#pragma once

#include <cstddef>

namespace halfsplit {

/// Things are numbered with int, containers ask for std::size_t. `index` is never below 0.
constexpr std::size_t at(int index) {
    return static_cast<std::size_t>(index);
}

}  // namespace halfsplit
