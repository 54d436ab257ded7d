#pragma once

#include <algorithm>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "ui/window/frame/task.h"

namespace halfsplit::window {

/// One piece of work at a time, which can be left: it is asked to stop, nobody waits until it does, and what
/// comes of it is thrown away. What it works on must be its own.
template <class Result>
class Worker {
  public:
    void start(std::string what, std::function<Result(Progress&)> work) {
        leave();
        task_ = std::make_unique<Task<Result>>();
        task_->start(std::move(what), std::move(work));
    }

    bool is_running() const { return task_ && task_->is_running(); }
    const std::string& what() const { return task_->what(); }
    double share() const { return task_->share(); }

    std::optional<Result> take(std::chrono::milliseconds patience = {}) {
        std::erase_if(left_, [](auto& each) { return each->take().has_value(); });
        return task_ ? task_->take(patience) : std::nullopt;
    }

    void leave() {
        if (is_running()) {
            task_->ask_to_stop();
            left_.push_back(std::move(task_));
        }
        task_.reset();
    }

  private:
    std::unique_ptr<Task<Result>> task_;
    std::vector<std::unique_ptr<Task<Result>>> left_;  ///< still at work
};

}  // namespace halfsplit::window
