#include <catch2/catch.hpp>

#include "tests/journeys/real_window.h"
#include "tests/support/files.h"
#include "ui/files/session_file.h"
#include "ui/files/text_files.h"

namespace halfsplit {

namespace {

using test::RealWindow;

void type_action(RealWindow& window, const std::string& text) {
    // The line keeps the keyboard once it has it, and gets it back when an action is done.
    if (!window.waits_for("typing", 1)) window.key("t");
    REQUIRE(window.waits_for("typing"));
    window.type(text);
    window.key("Return");
}

/// What was clicked may have moved while the hand was on its way, where an answer came that takes room above
/// it: then one clicks again.
void write_at(RealWindow& window, const std::string& where, const std::string& text) {
    bool can_type = false;
    for (int tries = 0; tries < 5 && !can_type; ++tries) {
        window.click(where);
        can_type = window.waits_for("typing", 3);
    }
    REQUIRE(can_type);
    window.type(text);
    window.key("Return");
}

std::size_t rows_in(const std::string& path) {
    const auto text = files::read_text(path);
    if (!text) return 0;
    return static_cast<std::size_t>(std::count(text->begin(), text->end(), '\n'));
}

}  // namespace

TEST_CASE("Somebody studies the horns: key on, two leads put down, a fuse pulled") {
    RealWindow window("study-horns", {test::project_file("circuits/horn.circuit.xml"), "--mode", "study"});
    window.click("control:S1=run");
    window.click("point:F7.2");
    window.click("point:G1.-", 3);
    CHECK(window.waits_for("display"));
    window.click("part:F7");
    window.click("chosen:out");
    CHECK(window.leave() == 0);
}

TEST_CASE("An apprentice solves a job with mouse and keyboard") {
    RealWindow window("practise-horn", {test::project_file("scenarios/horn-silent.scenario.xml")});
    const std::string log = (window.folder() / "horn-silent.session.jsonl").string();
    const auto entries = [&] {
        const auto read = files::read_session(log);
        return read ? read->entries.size() : 0;
    };
    std::size_t done = 0;
    for (const char* text :
         {"state sounding", "measure voltmeter K2.87", "measure voltmeter X3.1b", "measure voltmeter X3.1a",
          "state key-off", "mend X3.1", "state sounding", "done"}) {
        INFO(text);
        type_action(window, text);
        ++done;
        REQUIRE(window.waits_until([&] { return entries() == done; }, 20));
        window.rests();
    }
    CHECK(window.reaches("debrief:write", 120));
    CHECK(window.leave() == 0);
    const auto read = files::read_session(log);
    REQUIRE(read);
    CHECK(read->entries.back().action.verb == practice::Verb::done);
}

TEST_CASE("A technician writes down five readings and is told what it may be") {
    RealWindow window("diagnose-horn",
                      {test::project_file("circuits/horn.circuit.xml"), "--mode", "diagnose"});
    const std::string kept = (window.folder() / "horn.readings.csv").string();
    const std::vector<std::pair<std::string, std::string>> readings{{"part:P3", "silent"},
                                                                    {"point:K2.87", "0.00"},
                                                                    {"point:K2.30", "0.01"},
                                                                    {"point:F7.2", "0.01"},
                                                                    {"point:F7.1", "12.6"}};
    std::size_t rows = 1;
    for (const auto& [where, text] : readings) {
        INFO(where);
        write_at(window, where, text);
        ++rows;
        REQUIRE(window.waits_until([&] { return rows_in(kept) == rows; }, 20));
    }
    CHECK(window.reaches("suspect:0"));
    CHECK(window.leave() == 0);
}

TEST_CASE("A trainer makes a job of a fault, has it proved and keeps it") {
    RealWindow window("author-horn", {test::project_file("circuits/horn.circuit.xml"), "--mode", "author"});
    window.click("part:F8");
    window.click("choose:blown:F8");
    REQUIRE(window.reaches("prove"));
    window.click("prove");
    REQUIRE(window.reaches("proved", 120));
    REQUIRE(window.reaches("keep"));
    window.click("keep");
    const std::string job = (window.folder() / "horn-job.scenario.xml").string();
    CHECK(window.waits_until([&] { return files::read_text(job).has_value(); }));
    CHECK(window.leave() == 0);
}

}  // namespace halfsplit
