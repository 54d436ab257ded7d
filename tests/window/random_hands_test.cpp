#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <random>

#include "tests/support/files.h"
#include "tests/window/headless.h"

namespace halfsplit {

namespace {

using test::Headless;
using window::Key;

/// Somebody who pushes anything, anywhere, without sense; the same for the same seed.
class RandomHands {
  public:
    RandomHands(Headless& hands, std::uint64_t seed) : hands_(hands), generator_(seed) {}

    void act() {
        switch (below(10)) {
            case 0:
                // A mode that has nothing open has no paper.
                if (hands_.is_there("paper")) hands_.wheel("paper", static_cast<float>(below(7)) - 3);
                break;
            case 1:
                hands_.key(static_cast<Key>(1 + below(static_cast<int>(Key::count) - 1)), below(3) == 0);
                break;
            case 2:
                hands_.type(std::string(1 + at(below(5)), static_cast<char>(' ' + below(95))));
                break;
            case 3:
                hands_.frames(1 + below(30));
                break;
            default:
                click();
        }
    }

  private:
    static std::size_t at(int index) { return static_cast<std::size_t>(index); }
    int below(int limit) { return static_cast<int>(generator_() % static_cast<std::uint64_t>(limit)); }

    void click() {
        const auto& all = hands_.desk().landmarks().all();
        if (all.empty()) return;
        auto chosen = all.begin();
        std::advance(chosen, below(static_cast<int>(all.size())));
        const std::string name = chosen->first;
        const int button = below(5) == 0 ? 1 : 0;
        hands_.press_mouse(name, button);
        if (below(4) == 0) hands_.frames(below(20));
        hands_.release_mouse(button);
    }

    Headless& hands_;
    std::mt19937_64 generator_;
};

/// More than the everyday number, for a long run by hand.
int actions_wanted() {
    const char* wanted = std::getenv("HALFSPLIT_RANDOM_ACTIONS");
    return wanted == nullptr ? 150 : std::atoi(wanted);
}

}  // namespace

TEST_CASE("Hands without sense break nothing") {
    // What modes keep in the working directory is kept where it does no harm.
    const auto folder = std::filesystem::temp_directory_path() / "halfsplit-random-hands";
    std::filesystem::remove_all(folder);
    std::filesystem::create_directories(folder);
    const auto before = std::filesystem::current_path();
    std::filesystem::current_path(folder);
    for (const char* file : {"circuits/horn.circuit.xml", "circuits/entry-step.circuit.xml",
                             "circuits/turn-signals.circuit.xml", "scenarios/horn-silent.scenario.xml"}) {
        Headless hands;
        hands.desk().open(test::project_file(file));
        RandomHands random(hands, 7);
        for (int i = 0; i < actions_wanted(); ++i) random.act();
        CHECK(hands.drawn_vertices() > 0);
    }
    std::filesystem::current_path(before);
}

}  // namespace halfsplit
