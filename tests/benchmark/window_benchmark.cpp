#include <benchmark/benchmark.h>

#include "tests/support/files.h"
#include "tests/window/headless.h"

namespace {

using halfsplit::test::Headless;

std::unique_ptr<Headless> van_at_night() {
    auto hands = std::make_unique<Headless>();
    hands->desk().open(halfsplit::test::project_file("circuits/van-body.circuit.xml"));
    hands->desk().turn_to("study");
    hands->frames(3);
    hands->click("state");
    hands->frames(2);
    hands->click("state:3");  // driving at night
    hands->frames(60);
    hands->desk().keep_landmarks(false);
    return hands;
}

/// A sixtieth of a second of the whole van, its largest page drawn with potentials and numbers: what the
/// processor does for it, without rasterising.
void frame_of_the_van(benchmark::State& state) {
    const auto hands = van_at_night();
    for (auto _ : state) hands->frames(1);
}
BENCHMARK(frame_of_the_van)->Unit(benchmark::kMillisecond);

/// The same with time stopped: drawing alone.
void drawing_of_the_van(benchmark::State& state) {
    const auto hands = van_at_night();
    hands->key(halfsplit::window::Key::p);
    for (auto _ : state) hands->frames(1);
}
BENCHMARK(drawing_of_the_van)->Unit(benchmark::kMillisecond);

}  // namespace
