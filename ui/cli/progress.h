#pragma once

#include <chrono>
#include <iostream>

#include "engine/practice/session/replay.h"

namespace halfsplit::cli {

/// Tells on standard error how far something is, once a second, if it takes longer than that.
class Progress {
  public:
    /// `write(stream)` is called only when there is something to tell.
    template <class Write>
    void tell(const Write& write) {
        const auto now = std::chrono::steady_clock::now();
        if (now - told_ < std::chrono::seconds(1)) return;
        told_ = now;
        write(std::cerr);
        std::cerr << "\n";
    }

  private:
    std::chrono::steady_clock::time_point told_ = std::chrono::steady_clock::now();
};

/// For what goes over a session again, step by step.
inline practice::TellReplay telling_of_replay() {
    return [progress = Progress()](int done, int of) mutable {
        progress.tell(
            [&](std::ostream& out) { out << "gone over " << done << " of " << of << " steps again"; });
    };
}

}  // namespace halfsplit::cli
