#pragma once

#include <chrono>
#include <ctime>
#include <vector>

#include "engine/diagnosis/next_test/follow.h"

namespace halfsplit::benchmark_of {

double seconds_since(std::chrono::steady_clock::time_point begin);

/// What people wait for, from a reading to the next choice.
struct Waits {
    double slowest_s = 0;            ///< of all; processor time
    double slowest_settling_s = 0;   ///< the same with what had to be settled for it
    std::vector<double> on_clock_s;  ///< all of it, whatever else the machine does
    double ahead_s = 0;              ///< thought ahead while the next reading is taken, on the clock

    void add(const Waits& other);
};

/// Times what goes on between one reading and the next. How long the simulated vehicle and its customer take
/// is nobody's wait.
class Stopwatch {
  public:
    /// `settling` counts the processor time of what is settled anew. Borrowed.
    explicit Stopwatch(const std::clock_t& settling) : settling_(settling) { start(); }

    diagnosis::PatientVehicle around(diagnosis::PatientVehicle vehicle);
    /// Stops at each choice: what is thought of then keeps nobody waiting.
    diagnosis::Deviate around(diagnosis::Deviate deviate);

    const Waits& waits() const { return waits_; }

  private:
    void start();
    void stop();

    const std::clock_t& settling_;
    Waits waits_;
    std::clock_t begin_ = 0;
    std::clock_t settling_before_ = 0;
    std::chrono::steady_clock::time_point clock_begin_;
    std::chrono::steady_clock::time_point chosen_;
};

}  // namespace halfsplit::benchmark_of
