#include "tests/benchmark/stopwatch.h"

#include <algorithm>
#include <utility>

namespace halfsplit::benchmark_of {

namespace {

using Clock = std::chrono::steady_clock;

double in_seconds(std::clock_t ticks) {
    return static_cast<double>(ticks) / CLOCKS_PER_SEC;
}

}  // namespace

double seconds_since(Clock::time_point begin) {
    return std::chrono::duration<double>(Clock::now() - begin).count();
}

void Waits::add(const Waits& other) {
    slowest_s = std::max(slowest_s, other.slowest_s);
    slowest_settling_s = std::max(slowest_settling_s, other.slowest_settling_s);
    on_clock_s.insert(on_clock_s.end(), other.on_clock_s.begin(), other.on_clock_s.end());
    ahead_s += other.ahead_s;
}

diagnosis::PatientVehicle Stopwatch::around(diagnosis::PatientVehicle vehicle) {
    vehicle.read = [this, read = std::move(vehicle.read)](const diagnosis::Test& test) {
        waits_.ahead_s += seconds_since(chosen_);
        const auto value = read(test);
        start();
        return value;
    };
    vehicle.is_broken = [this, is_broken = std::move(vehicle.is_broken)](int fault) {
        start();
        return is_broken(fault);
    };
    vehicle.mend = [this, mend = std::move(vehicle.mend)](int fault) {
        const bool is_sound = mend(fault);
        start();
        return is_sound;
    };
    if (vehicle.complain)
        vehicle.complain = [this, complain = std::move(vehicle.complain)] {
            auto readings = complain();
            start();
            return readings;
        };
    return vehicle;
}

diagnosis::Deviate Stopwatch::around(diagnosis::Deviate deviate) {
    return [this, deviate = std::move(deviate)](diagnosis::Choice choice, const diagnosis::Evidence& evidence,
                                                const diagnosis::Bench& bench) {
        stop();
        if (deviate) choice = deviate(std::move(choice), evidence, bench);
        chosen_ = Clock::now();
        return choice;
    };
}

void Stopwatch::start() {
    begin_ = std::clock();
    clock_begin_ = Clock::now();
    settling_before_ = settling_;
}

void Stopwatch::stop() {
    const std::clock_t all = std::clock() - begin_;
    const std::clock_t without_settling = all - (settling_ - settling_before_);
    waits_.slowest_settling_s = std::max(waits_.slowest_settling_s, in_seconds(all));
    waits_.slowest_s = std::max(waits_.slowest_s, in_seconds(without_settling));
    waits_.on_clock_s.push_back(seconds_since(clock_begin_));
}

}  // namespace halfsplit::benchmark_of
