#include <imgui.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>

#include "tests/support/files.h"
#include "tests/support/sanitized.h"
#include "tests/support/temporary_folder.h"
#include "tests/window/headless.h"
#include "ui/files/text_files.h"

namespace halfsplit {

namespace {

using test::Headless;
using window::Key;
using window::ScreenBox;

struct Screen {
    int width;
    int height;
    double scale;
};

/// Names of what can be pushed or typed in; not what is drawn on the paper.
bool is_widget(const std::string& name) {
    for (const char* on_paper : {"paper", "point:", "part:", "wire:"})
        if (name == on_paper || (name.ends_with(':') && name.starts_with(on_paper))) return false;
    return !name.starts_with("point:") && !name.starts_with("part:") && !name.starts_with("wire:");
}

bool overlap(const ScreenBox& a, const ScreenBox& b) {
    return a.left + 1 < b.right && b.left + 1 < a.right && a.top + 1 < b.bottom && b.top + 1 < a.bottom;
}

std::vector<std::string> overlapping(const Headless& hands) {
    std::vector<std::string> found;
    const auto& all = const_cast<Headless&>(hands).desk().landmarks().all();
    for (const auto& [name, box] : all)
        for (const auto& [other, its_box] : all)
            if (name < other && is_widget(name) && is_widget(other) && overlap(box, its_box))
                found.push_back(name + " and " + other);
    return found;
}

std::vector<std::string> cut_off(Headless& hands, const Screen& screen) {
    std::vector<std::string> found;
    for (const auto& [name, box] : hands.desk().landmarks().all())
        if (is_widget(name) && (box.left < 0 || box.right > static_cast<float>(screen.width)))
            found.push_back(name);
    return found;
}

}  // namespace

TEST_CASE(
    "Nothing that can be pushed covers anything else or is cut off, whatever the size of window and "
    "letters") {
    const std::vector<std::string> circuits =
        test::kSanitized ? std::vector<std::string>{"entry-step"}
                         : std::vector<std::string>{"horn", "entry-step", "van-body"};
    for (const Screen& screen : {Screen{1600, 1000, 1}, Screen{1280, 720, 1}, Screen{1280, 720, 0.75},
                                 Screen{1280, 720, 1.5}, Screen{1920, 1080, 2}, Screen{1920, 1200, 2.5}})
        for (const std::string& circuit : circuits) {
            CAPTURE(screen.width, screen.height, screen.scale, circuit);
            Headless hands(screen.width, screen.height, {screen.scale, false});
            hands.desk().open(test::project_file("circuits/" + circuit + ".circuit.xml"));
            hands.frames(3);
            CHECK(overlapping(hands) == std::vector<std::string>{});
            CHECK(cut_off(hands, screen) == std::vector<std::string>{});
        }
}

TEST_CASE("A modifier that is let go in the same instant as its key counts for it") {
    ImGuiIO io;
    window::InputFeed feed;
    const auto push = [&](Key key, bool down) {
        window::InputEvent event;
        event.kind = window::InputEvent::Kind::key;
        event.key = key;
        event.down = down;
        feed.push(event);
    };
    push(Key::control, true);
    feed.feed(io);
    push(Key::q, true);
    push(Key::control, false);
    push(Key::q, false);
    feed.feed(io);
    CHECK(io.KeysDown[static_cast<int>(Key::q)]);
    CHECK(io.KeyCtrl);
    feed.feed(io);
    CHECK_FALSE(io.KeyCtrl);
    while (!feed.is_empty()) feed.feed(io);
    CHECK_FALSE(io.KeysDown[static_cast<int>(Key::q)]);
}

TEST_CASE("A file with errors is told with its lines and leaves the desk as it was") {
    Headless hands;
    hands.desk().open(test::project_file("circuits/horn.circuit.xml"));
    hands.desk().open(test::project_file("tests/data/broken/misspelt-id.circuit.xml"));
    hands.frames(2);
    CHECK(hands.says("misspelt-id.circuit.xml:"));
    CHECK(hands.says("Horns"));
}

TEST_CASE("A file that was chosen in the desktop's dialog is opened, and none is offered without a dialog") {
    const test::TemporaryFolder folder("choose");
    const std::string zenity = folder.file("zenity");
    REQUIRE(files::write_atomically(
        zenity, "#!/bin/sh\necho '" + test::project_file("circuits/horn.circuit.xml") + "'\n"));
    std::filesystem::permissions(zenity, std::filesystem::perms::owner_all);
    const std::string before = std::getenv("PATH");
    setenv("PATH", (folder.path() + ":" + before).c_str(), 1);
    Headless hands;
    hands.frames(3);
    CHECK_FALSE(hands.is_there("open:choose"));
    hands.desk().offer_dialog("zenity");
    hands.frames(3);
    hands.click("open:choose");
    CHECK(hands.frames_until([&] { return hands.desk().mode().drawn() != nullptr; }, 1000000));
    setenv("PATH", before.c_str(), 1);
}

TEST_CASE("The list of keys opens and closes by its key") {
    Headless hands;
    hands.desk().open(test::project_file("circuits/horn.circuit.xml"));
    hands.key(Key::f1);
    CHECK(hands.says("this list"));
    hands.key(Key::f1);
    CHECK(!hands.says("this list"));
}

TEST_CASE("Every page of the whole van can be turned to") {
    Headless hands;
    hands.desk().open(test::project_file("circuits/van-body.circuit.xml"));
    const std::size_t pages = hands.desk().mode().drawn()->pages.size();
    REQUIRE(pages > 10);
    for (std::size_t page = 1; page < pages; ++page) {
        hands.key(Key::page_down);
        CHECK(hands.drawn_vertices() > 1000);
    }
}

TEST_CASE("A file that is changed on the disk is read anew, in the modes turned to before and after") {
    const test::TemporaryFolder folder("changed");
    const std::string path = folder.file("horn.circuit.xml");
    auto text = test::read_file(test::project_file("circuits/horn.circuit.xml"));
    REQUIRE(text);
    REQUIRE(files::write_atomically(path, *text));
    Headless hands;
    const auto title = [&](const char* mode) {
        hands.desk().turn_to(mode);
        return hands.desk().mode().drawn()->circuit->title;
    };
    hands.desk().open(path);
    const std::string before = title("study");
    CHECK_FALSE(hands.desk().look_around());

    text->replace(text->find(before), before.size(), "Horns, changed");
    REQUIRE(files::write_atomically(path, *text));
    CHECK(hands.desk().look_around());
    CHECK(title("author") == "Horns, changed");
    CHECK(title("study") == "Horns, changed");
    CHECK(title("diagnose") == "Horns, changed");
}

}  // namespace halfsplit
