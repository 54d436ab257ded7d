#include "engine/diagnosis/dictionary/share_out.h"

#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace halfsplit::diagnosis {

namespace {

class Work {
  public:
    Work(int count, const std::function<void(int, int)>& job) : count_(count), job_(job) {}

    void take_part(int thread, const std::function<void(int)>& done) {
        try {
            for (int next = next_++; next < count_; next = next_++) {
                job_(next, thread);
                const int finished = ++finished_;
                if (done) done(finished);
            }
        } catch (...) {
            next_ = count_;
            const std::lock_guard lock(guard_);
            if (!failure_) failure_ = std::current_exception();
        }
    }

    void throw_on() const {
        if (failure_) std::rethrow_exception(failure_);
    }

  private:
    const int count_;
    const std::function<void(int, int)>& job_;
    std::atomic<int> next_ = 0;
    std::atomic<int> finished_ = 0;
    std::mutex guard_;
    std::exception_ptr failure_;
};

}  // namespace

void share_out(int count, int threads, const std::function<void(int, int)>& job,
               const std::function<void(int)>& done) {
    Work work(count, job);
    std::vector<std::jthread> others;
    for (int thread = 1; thread < threads && thread < count; ++thread)
        others.emplace_back([&work, thread] { work.take_part(thread, {}); });
    work.take_part(0, done);
    others.clear();
    work.throw_on();
    if (done) done(count);
}

}  // namespace halfsplit::diagnosis
