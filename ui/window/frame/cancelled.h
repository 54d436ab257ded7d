#pragma once

#include "ui/window/frame/task.h"

namespace halfsplit::window {

/// Leaves work that tells how far it has come, from within the telling: nobody wants it any more.
struct Cancelled {};

inline void tell_progress(Progress& progress, int done, int of) {
    progress.done = static_cast<std::size_t>(done);
    progress.of = static_cast<std::size_t>(of);
    if (progress.is_cancelled) throw Cancelled{};
}

}  // namespace halfsplit::window
