#include <algorithm>
#include <cstdint>
#include <string>
#include <string_view>

#include "engine/model/chart/read_chart.h"
#include "engine/simulation/chart/run_chart.h"
#include "tests/fuzz/text_mutator.h"

namespace {

/// Voltages that go up and down, so that conditions change.
class FuzzSenses : public halfsplit::simulation::Senses {
  public:
    explicit FuzzSenses(double volts) : volts_(volts) {}
    double in_v(std::string_view pin) const override { return volts_ - static_cast<double>(pin.size()); }
    double hz(std::string_view /*pin*/) const override { return volts_ * 10; }
    double amps(std::string_view /*driver*/) const override { return volts_; }

  private:
    double volts_;
};

/// Whatever is read without error runs, or says why it does not.
void run(const halfsplit::model::chart::Chart& chart) {
    auto state = halfsplit::simulation::start_chart(chart, FuzzSenses(0), 0);
    constexpr int kSteps = 20;
    for (int step = 0; state && step < kSteps; ++step) {
        const FuzzSenses senses(step % 3 * 6);
        const double now_s = halfsplit::simulation::next_timer_s(*state).value_or(step);
        if (step % 2 == 0)
            halfsplit::simulation::raise_event(*state, step % 4 == 0 ? "in.3.high" : "in.3.low");
        halfsplit::simulation::wants_to_act(chart, *state, senses, now_s);
        const auto done = halfsplit::simulation::act(chart, *state, senses, now_s);
        if (!done) return;
        if (halfsplit::simulation::wants_to_act(chart, *state, senses, now_s)) __builtin_trap();
    }
}

}  // namespace

extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t max_size);

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size, std::size_t max_size,
                                               unsigned seed) {
    constexpr unsigned kBytesEvery = 3;  // expressions are read byte by byte
    if (seed % kBytesEvery == 0) return LLVMFuzzerMutate(data, size, max_size);
    const std::string text = halfsplit::fuzz::TextMutator(seed).mutate({data, data + size});
    const std::size_t new_size = std::min(text.size(), max_size);
    std::copy_n(text.begin(), new_size, data);
    return new_size;
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view input(reinterpret_cast<const char*>(data), size);
    const auto chart = halfsplit::model::chart::read_chart(input, "a.scxml");
    if (chart)
        run(*chart);
    else if (chart.error().empty())
        __builtin_trap();
    return 0;
}
