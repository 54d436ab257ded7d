#pragma once

#include <functional>

namespace halfsplit::diagnosis {

/// For what is worked out between two readings: a user's machine has other things to do as well.
inline constexpr int kThreadsBetweenReadings = 2;

/// Does jobs 0 … count-1 with so many threads, of which the calling one is the first. `job(number, thread)`
/// must not depend on which thread does what, nor on what was done before. `done(jobs)`, where given, hears
/// in the calling thread how many are done. What a job throws is thrown on, once all have stopped.
void share_out(int count, int threads, const std::function<void(int job, int thread)>& job,
               const std::function<void(int jobs)>& done = {});

}  // namespace halfsplit::diagnosis
