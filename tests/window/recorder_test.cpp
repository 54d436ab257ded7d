#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "tests/support/files.h"
#include "tests/support/temporary_folder.h"
#include "tests/window/headless.h"
#include "ui/view/strip_text.h"
#include "ui/view/table.h"
#include "ui/window/practise/practise_mode.h"
#include "ui/window/study/study_mode.h"

namespace halfsplit {

namespace {

using test::Headless;
using window::ChartView;
using window::Key;
using window::ScreenBox;
using window::StudyMode;

std::unique_ptr<Headless> at_recorder(const std::string& name, int width = 1600, int height = 1000,
                                      const window::Liking& liking = {}) {
    auto hands = std::make_unique<Headless>(width, height, liking);
    hands->desk().open(test::project_file("circuits/" + name + ".circuit.xml"));
    hands->desk().turn_to("study");
    hands->key(Key::f);
    hands->frames(3);
    return hands;
}

const StudyMode& learner(Headless& hands) {
    return dynamic_cast<const StudyMode&>(hands.desk().mode());
}

/// In the list of instruments.
int clamp_number() {
    const auto all = instruments::instruments();
    const auto clamp =
        std::ranges::find(all, instruments::Connection::around_wire, &instruments::Instrument::connection);
    return static_cast<int>(clamp - all.begin());
}

double between_s(const ChartView& view) {
    return view.cursor_s(1) - view.cursor_s(0);
}

}  // namespace

// 90 flashes a minute stand in the circuit's file (rate-per-min of K13): a period of 0.667 s, 1.50 Hz.
TEST_CASE("The cursors measure the period of a direction indicator that its flasher has") {
    const auto hands = at_recorder("turn-signals");
    hands->click("control:S1=run");
    hands->click("control:S46=left");
    hands->click("point:E50.1");
    hands->key(Key::c);
    hands->frames(240);
    hands->key(Key::p);
    hands->key(Key::n);
    const ChartView& view = learner(*hands).recorder_screen().view();
    CHECK(between_s(view) == Approx(60.0 / 90).epsilon(0.01));
    CHECK(hands->says("1.50 Hz"));
    CHECK(hands->says(view::seconds_text(between_s(view))));
    const double first_s = view.cursor_s(0);
    hands->key(Key::n);
    CHECK(std::abs(view.cursor_s(0) - first_s) == Approx(60.0 / 90).epsilon(0.01));
}

TEST_CASE("What the recorder has under a cursor is what the course had then") {
    const auto hands = at_recorder("turn-signals");
    hands->click("control:S1=run");
    hands->click("control:S46=left");
    hands->click("point:E50.1");
    hands->click("point:E50.2", 1);
    hands->click("channel:on");
    hands->frames(50);
    hands->key(Key::p);
    const StudyMode& study = learner(*hands);
    const auto& strip = study.recorded();
    REQUIRE(strip.channels.size() == 1);
    CHECK(strip.channels[0].against == "E50.2");
    const double now_v = study.bench()->potential_v("E50.1") - study.bench()->potential_v("E50.2");
    // The right edge is now.
    CHECK(study.recorder_screen().view().to_s() == study.bench()->now_s());
    CHECK(instruments::value_at(strip, 0, study.recorder_screen().view().to_s()) == now_v);
    hands->drag("cursor:B", 3000);
    CHECK(study.recorder_screen().view().cursor_s(1) == Approx(study.bench()->now_s()));
    CHECK(hands->says(view::volts_text(now_v)));
}

TEST_CASE("A cursor goes where the mouse drags it, and by keys a little or ten times as far") {
    const auto hands = at_recorder("horn");
    hands->click("point:F7.2");
    hands->key(Key::c);
    hands->frames(5);
    hands->key(Key::p);
    const ChartView& view = learner(*hands).recorder_screen().view();
    const ScreenBox plot = *hands->desk().landmarks().find("recorder:plot");
    const double px_s = view.span_s() / static_cast<double>(plot.right - plot.left);
    const double before_s = view.cursor_s(0);
    hands->drag("cursor:A", 100);
    CHECK(view.cursor_s(0) == Approx(before_s + 100 * px_s).margin(px_s));
    const double dragged_s = view.cursor_s(0);
    hands->key(Key::r);
    const double step_s = view.cursor_s(0) - dragged_s;
    CHECK(step_s > 0);
    hands->key(Key::e);
    CHECK(view.cursor_s(0) == Approx(dragged_s));
    const double other_s = view.cursor_s(1);
    hands->key(Key::u);
    CHECK(view.cursor_s(1) == Approx(other_s - step_s));
}

TEST_CASE("The recording moves on with time and stands when time does") {
    const auto hands = at_recorder("horn");
    hands->click("point:F7.2");
    hands->key(Key::c);
    hands->frames(60);
    const StudyMode& study = learner(*hands);
    CHECK(study.recorded().time_s.size() > 3000);  // four a millisecond
    CHECK(study.is_lively());                      // though nothing moves in the circuit
    hands->key(Key::p);
    const double stopped_s = study.recorder_screen().view().to_s();
    hands->frames(30);
    CHECK(study.recorder_screen().view().to_s() == stopped_s);
    hands->click("channel:off:1");
    CHECK_FALSE(hands->is_there("recorder:plot"));
    CHECK(study.bench()->situation().attachments.empty());
}

TEST_CASE("A clamp's channel shows the current of its wire, and the recorder takes four channels") {
    const auto hands = at_recorder("horn", 1600, 1800);
    hands->click("control:S1=run");
    for (const char* point : {"point:F7.2", "point:F7.1", "point:K2.85", "point:K2.86", "point:K2.87"}) {
        hands->click(point);
        hands->key(Key::c);
    }
    const StudyMode& study = learner(*hands);
    CHECK(study.recorded().channels.size() == 4);
    CHECK(hands->says("the recorder has four channels"));
    hands->click("channel:off:4");
    hands->click("instrument");
    hands->click("instrument:" + std::to_string(clamp_number()));
    hands->click("wire:W202");
    CHECK(hands->is_there("lead:A"));  // the clamp is seen around its wire
    hands->key(Key::c);
    hands->press_mouse("control:S5=pressed");
    hands->frames(30);
    REQUIRE(study.recorded().channels.size() == 4);
    CHECK(study.recorded().channels[3].is_current);
    const double now_a = study.bench()->current_a("W202");
    CHECK(std::abs(now_a) > 1);  // two horns
    CHECK(study.recorded().values[3].back() == now_a);
}

// By hand: 56 rounds a second are 17.857 ms a round.
TEST_CASE("What is recorded every quarter of a millisecond shows the rate of a fast sender") {
    instruments::Strip strip{{{"B1.1"}}, {}, {{}}};
    for (int i = 0; i < 4000; ++i) {
        const double time_s = i * instruments::LiveRecorder::kEveryS;
        strip.time_s.push_back(time_s);
        strip.values[0].push_back(std::fmod(time_s * 56, 1) < 0.5 ? 0 : 12);
    }
    const auto rises = instruments::rises(strip, 0, 0, 1);
    REQUIRE(rises.size() > 50);
    CHECK((rises[50] - rises[0]) / 50 == Approx(1 / 56.0).epsilon(1e-3));
    CHECK(view::rate_text(rises[50] - rises[49]).starts_with("5"));
}

TEST_CASE("The recorder's screen and its buttons have room in every window") {
    struct Size {
        int width;
        int height;
        double scale;
    };
    for (const Size& size : {Size{1280, 720, 1}, Size{1600, 1000, 0.75}, Size{1920, 1200, 2.5}}) {
        CAPTURE(size.width, size.height, size.scale);
        const auto hands = at_recorder("turn-signals", size.width, size.height, {size.scale, false});
        hands->click("point:G1.+");
        hands->key(Key::c);
        hands->frames(10);
        const ScreenBox* plot = hands->desk().landmarks().find("recorder:plot");
        REQUIRE(plot != nullptr);
        const ScreenBox* paper = hands->desk().landmarks().find("paper");
        REQUIRE(paper != nullptr);
        CHECK(paper->bottom <= plot->top);
        CHECK(plot->bottom <= static_cast<float>(size.height));
        CHECK(plot->bottom - plot->top > 60);
        CHECK(paper->bottom - paper->top > 150);
    }
}

TEST_CASE(
    "In practice a recording costs its minutes, is in the log, and shows what the recorder tells apart") {
    namespace fs = std::filesystem;
    test::TemporaryFolder folder("practise-recorder");
    const fs::path before = fs::current_path();
    fs::create_directories(folder.file("circuits"));
    fs::create_directories(folder.file("scenarios"));
    fs::copy_file(test::project_file("circuits/horn.circuit.xml"), folder.file("circuits/horn.circuit.xml"));
    fs::copy_file(test::project_file("scenarios/horn-silent.scenario.xml"),
                  folder.file("scenarios/horn-silent.scenario.xml"));
    fs::current_path(folder.path());
    instruments::Strip before_closing;
    {
        Headless hands;
        hands.desk().open(folder.file("scenarios/horn-silent.scenario.xml"));
        hands.frames(3);
        const auto& mode = dynamic_cast<const window::PractiseMode&>(hands.desk().mode());
        CHECK_FALSE(hands.is_there("recorder:plot"));
        hands.key(Key::t);
        hands.type("record F7.1,W1 0.5");
        hands.key(Key::enter);
        REQUIRE(hands.frames_until([&] { return mode.job()->entries().size() == 1 && !mode.is_lively(); }));
        hands.frames(3);
        REQUIRE(hands.is_there("recorder:plot"));
        const practice::Entry& entry = mode.job()->entries().back();
        CHECK(entry.minutes > 0);
        REQUIRE(mode.job()->strip());
        const instruments::Strip& strip = *mode.job()->strip();
        CHECK(strip.time_s.back() == Approx(0.5));
        const auto all = instruments::swept(strip, 0, 0, 1);
        REQUIRE(all);
        const auto most = std::ranges::find(entry.observed, "recorder F7.1 most", &practice::Observed::about);
        REQUIRE(most != entry.observed.end());
        CHECK(all->most == Approx(most->value).margin(most->doubt / 2 + 1e-9));
        for (const double value : strip.values[0])
            CHECK(value / most->doubt == Approx(std::round(value / most->doubt)).margin(1e-6));
        before_closing = strip;
    }
    {
        Headless hands;
        hands.desk().open(folder.file("scenarios/horn-silent.scenario.xml"));
        hands.frames(3);
        const auto& mode = dynamic_cast<const window::PractiseMode&>(hands.desk().mode());
        CHECK(hands.is_there("recorder:plot"));
        REQUIRE(mode.job()->strip());
        CHECK(mode.job()->strip()->time_s == before_closing.time_s);
        CHECK(mode.job()->strip()->values == before_closing.values);
    }
    fs::current_path(before);
}

}  // namespace halfsplit
