#pragma once

#include <atomic>
#include <chrono>
#include <functional>
#include <future>
#include <memory>
#include <optional>
#include <string>
#include <utility>

namespace halfsplit::window {

/// How far long work has come; asked and told from different threads.
struct Progress {
    std::atomic<std::size_t> done{0};
    std::atomic<std::size_t> of{0};
    std::atomic<bool> is_cancelled{false};
};

/// Long work beside the window. What it works on must be its own, or outlive it unchanged.
template <class Result>
class Task {
  public:
    Task() = default;
    Task(const Task&) = delete;
    Task& operator=(const Task&) = delete;
    /// Waits for what still runs, having asked it to stop.
    ~Task() { cancel(); }

    void start(std::string what, std::function<Result(Progress&)> work) {
        cancel();
        what_ = std::move(what);
        progress_ = std::make_shared<Progress>();
        result_ = std::async(std::launch::async,
                             [work = std::move(work), progress = progress_] { return work(*progress); });
    }

    bool is_running() const { return result_.valid(); }
    /// For people: "predicting faults".
    const std::string& what() const { return what_; }
    /// 0 to 1; 0 where nothing is known.
    double share() const {
        const std::size_t of = progress_ ? progress_->of.load() : 0;
        return of == 0 ? 0 : static_cast<double>(progress_->done.load()) / static_cast<double>(of);
    }

    /// What came of it, once; `patience` is waited for it.
    std::optional<Result> take(std::chrono::milliseconds patience = {}) {
        if (!result_.valid() || result_.wait_for(patience) != std::future_status::ready) return std::nullopt;
        return result_.get();
    }

    /// Without waiting until it does.
    void ask_to_stop() {
        if (progress_) progress_->is_cancelled = true;
    }

    void cancel() {
        ask_to_stop();
        if (result_.valid()) result_.wait();
        result_ = {};
    }

  private:
    std::string what_;
    std::shared_ptr<Progress> progress_;
    std::future<Result> result_;
};

}  // namespace halfsplit::window
