#include <catch2/catch.hpp>
#include <cmath>

#include "tests/support/files.h"
#include "tests/window/headless.h"
#include "ui/window/study/study_mode.h"

namespace halfsplit {

namespace {

using test::Headless;
using window::Key;
using window::StudyMode;

std::string circuit(const std::string& name) {
    return test::project_file("circuits/" + name + ".circuit.xml");
}

const StudyMode& study(Headless& hands) {
    return dynamic_cast<const StudyMode&>(hands.desk().mode());
}

std::unique_ptr<Headless> studying(const std::string& name, int height = 1000) {
    auto hands = std::make_unique<Headless>(1600, height);
    hands->desk().open(circuit(name));
    hands->desk().turn_to("study");
    hands->frames(3);
    return hands;
}

}  // namespace

TEST_CASE("Two clicks put two leads on two points and the voltmeter shows what is between them") {
    const auto hands = studying("horn");
    hands->click("point:F7.2");
    hands->click("point:G1.-", 1);
    hands->frames(30);
    REQUIRE(study(*hands).reading());
    // At rest nothing flows: the battery's rested 12.6 V, less what a meter of 10 megohm draws.
    CHECK(study(*hands).reading()->value == Approx(12.6).margin(0.02));
    CHECK(hands->says(study(*hands).reading()->shown));
}

TEST_CASE("A button that springs back is on while the mouse holds it") {
    const auto hands = studying("horn");
    hands->click("control:S1=run");
    hands->frames(30);
    const auto horn_a = [&] { return std::abs(study(*hands).bench()->current_a("P3.coil")); };
    CHECK(horn_a() < 0.01);
    hands->press_mouse("control:S5=pressed");
    hands->frames(30);
    CHECK(horn_a() > 1);
    hands->release_mouse();
    hands->frames(30);
    CHECK(horn_a() < 0.01);
}

TEST_CASE("A fault that is ticked is there and gone again when it is ticked once more") {
    const auto hands = studying("horn");
    hands->click("control:S1=run");
    hands->click("part:F7");
    hands->click("fault:blown:F7");
    hands->frames(20);
    CHECK(study(*hands).bench()->potential_v("F7.2") < 0.1);
    hands->click("fault:blown:F7");
    hands->frames(20);
    CHECK(study(*hands).bench()->potential_v("F7.2") == Approx(12.6).margin(0.1));
}

TEST_CASE("A fuse that is pulled feeds nothing until it is pushed in again") {
    const auto hands = studying("horn");
    hands->click("part:F7");
    hands->click("chosen:out");
    hands->frames(20);
    CHECK(study(*hands).bench()->potential_v("F7.2") < 0.1);
    hands->click("chosen:out");
    hands->frames(20);
    CHECK(study(*hands).bench()->potential_v("F7.2") > 12);
}

TEST_CASE("Time runs with the clock, stops at a key and goes on by hundredths") {
    const auto hands = studying("entry-step");
    const double before_s = study(*hands).bench()->now_s();
    hands->frames(60);
    CHECK(study(*hands).bench()->now_s() == Approx(before_s + 1).margin(0.05));
    hands->key(Key::p);
    const double stopped_s = study(*hands).bench()->now_s();
    hands->frames(60);
    CHECK(study(*hands).bench()->now_s() == stopped_s);
    hands->key(Key::period);
    CHECK(study(*hands).bench()->now_s() == Approx(stopped_s + 0.01));
}

TEST_CASE("What is found by its name is shown and in hand") {
    const auto hands = studying("exterior-lights");
    hands->key(Key::f, true);
    hands->type("f1");
    hands->key(Key::enter);
    hands->frames(3);
    CHECK(hands->says("In hand: F1"));
}

TEST_CASE("No quick click is lost: two within one frame are two, three are three") {
    Headless hands;
    hands.desk().open(circuit("horn"));
    hands.desk().turn_to("study");
    hands.frames(3);
    hands.click_at_once("keys", 2);
    CHECK_FALSE(hands.says("this list"));
    hands.click_at_once("keys", 3);
    CHECK(hands.says("this list"));
    hands.click_at_once("keys", 2);
    CHECK(hands.says("this list"));
}

// On a slow machine the mouse comes and is pressed within one frame.
TEST_CASE("The way of the mouse to a part is no dragging") {
    const auto hands = studying("horn", 1800);
    hands->click_at_once("part:P3", 1);
    CHECK(hands->says("In hand: P3"));
    hands->click_at_once("part:F7", 1);
    CHECK(hands->says("In hand: F7"));
}

// By hand: the horns are fed from the battery by F7 and the relay's contact, and return by ground.
TEST_CASE("The way of the current through a part is told from its feed to ground, and marked by numbers") {
    const auto hands = studying("horn", 1800);
    hands->key(Key::f);
    hands->click("control:S1=run");
    hands->click("part:P3");
    hands->click("drawer:way");
    hands->press_mouse("control:S5=pressed");
    hands->frames(30);
    const auto& way = study(*hands).way();
    REQUIRE(way.numbers.contains("F7"));
    REQUIRE(way.numbers.contains("K2"));
    REQUIRE(way.numbers.contains("P3"));
    CHECK(way.numbers.at("F7") < way.numbers.at("K2"));
    CHECK(way.numbers.at("K2") < way.numbers.at("P3"));
    CHECK(study(*hands).marks().way == way.numbers);
    CHECK(hands->says("The current through P3"));
    hands->release_mouse();
    hands->frames(30);
    CHECK(hands->says("P3 carries no current"));
    CHECK(hands->says("is open"));
    hands->key(Key::w);
    CHECK(study(*hands).marks().way.empty());
}

// By hand: at rest the coil's feed comes from the ignition switch, and its ground is open at the horn button.
TEST_CASE("A relay at rest is followed through its coil, not from its contact's feed to its coil's ground") {
    const auto hands = studying("horn", 1800);
    hands->key(Key::f);
    hands->click("control:S1=run");
    hands->click("part:K2");
    hands->frames(30);
    const auto& way = study(*hands).way();
    CHECK(way.heading.find("S5") != std::string::npos);
    CHECK(way.numbers.contains("F8"));
    CHECK(way.numbers.contains("S5"));
    CHECK_FALSE(way.numbers.contains("F7"));
}

TEST_CASE("A point in hand says what is there and what should be, and whether that fits") {
    const auto hands = studying("horn", 1800);
    hands->key(Key::f);
    // The sheet has K2.30 at the other end of the wire.
    hands->click("point:F7.2");
    REQUIRE(hands->frames_until([&] { return study(*hands).marks().notes.contains("K2.30"); }));
    const std::string sound = study(*hands).marks().notes.at("K2.30");
    CHECK(sound.find("should be 12") != std::string::npos);
    CHECK(sound.find("\u2713") != std::string::npos);
    CHECK(hands->says(sound));
    hands->click("part:F7");
    hands->click("fault:blown:F7");
    hands->click("point:K2.30");
    hands->frames(30);
    CHECK(study(*hands).marks().notes.at("K2.30").find("too low") != std::string::npos);
    hands->click("control:S1=run");
    hands->frames(30);
    CHECK(study(*hands).marks().notes.empty());
    CHECK(hands->says("it has been left since"));
}

TEST_CASE("Both leads go down by keys alone") {
    const auto hands = studying("horn");
    const auto find = [&](const char* point) {
        hands->key(Key::f, true);
        hands->type(point);
        hands->key(Key::enter);
        hands->frames(3);
    };
    find("g1.-");
    hands->key(Key::b);
    find("f7.2");
    hands->frames(30);
    REQUIRE(study(*hands).reading());
    CHECK(study(*hands).reading()->against == "G1.-");
    CHECK(study(*hands).reading()->at == "F7.2");
}

}  // namespace halfsplit
