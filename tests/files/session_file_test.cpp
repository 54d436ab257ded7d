#include "ui/files/session_file.h"

#include <catch2/catch.hpp>

#include <fstream>

#include "tests/support/temporary_folder.h"

using namespace halfsplit;
using files::SessionLog;

namespace {

practice::Entry entry_number(int number) {
    practice::Entry entry;
    entry.number = number;
    entry.action = practice::read_action("look").value();
    entry.observed.push_back({"P3", "silent", "silent"});
    return entry;
}

const view::SessionHead kHead{"id", "Ana", "horn", "horn.scenario.xml", "content", "2026-01-01T00:00:00Z"};

void append_bytes(const std::string& path, const std::string& bytes) {
    std::ofstream(path, std::ios::binary | std::ios::app) << bytes;
}

}  // namespace

TEST_CASE("A log is on the disk line by line, and goes on where it stood") {
    const test::TemporaryFolder folder("log");
    const std::string path = folder.file("a.session.jsonl");
    {
        auto log = SessionLog::begin(path, kHead);
        REQUIRE(log);
        CHECK(log->append(entry_number(1)));
        CHECK(files::read_session(path)->entries.size() == 1);
        CHECK(log->append(entry_number(2)));
    }
    CHECK_FALSE(SessionLog::begin(path, kHead));
    auto log = SessionLog::resume(path);
    REQUIRE(log);
    CHECK(log->logged().entries.size() == 2);
    CHECK((log->logged().head == kHead));
    CHECK(log->append(entry_number(3)));
    CHECK(files::read_session(path)->entries.size() == 3);
}

TEST_CASE("Half a line at the end, as a crash leaves it, is taken away") {
    const test::TemporaryFolder folder("log");
    const std::string path = folder.file("a.session.jsonl");
    { REQUIRE(SessionLog::begin(path, kHead)->append(entry_number(1))); }
    const std::string whole = view::entry_line(entry_number(2));
    for (const std::size_t length : {std::size_t{1}, whole.size() / 2, whole.size()}) {
        append_bytes(path, whole.substr(0, length));
        CHECK(files::read_session(path)->entries.size() == 1);
        auto log = SessionLog::resume(path);
        REQUIRE(log);
        CHECK(log->logged().entries.size() == 1);
    }
    auto log = SessionLog::resume(path);
    CHECK(log->append(entry_number(2)));
    CHECK(files::read_session(path)->entries.size() == 2);
}

TEST_CASE("A log of which not even the first line got to the disk is begun anew") {
    const test::TemporaryFolder folder("log");
    const std::string path = folder.file("a.session.jsonl");
    append_bytes(path, view::head_line(kHead).substr(0, 20));
    CHECK_FALSE(files::holds_session(path));
    auto log = SessionLog::begin(path, kHead);
    REQUIRE(log);
    CHECK(log->append(entry_number(1)));
    CHECK(files::holds_session(path));
    CHECK(files::read_session(path)->entries.size() == 1);
}

TEST_CASE("Two programs never write one log") {
    const test::TemporaryFolder folder("log");
    const std::string path = folder.file("a.session.jsonl");
    const auto first = SessionLog::begin(path, kHead);
    REQUIRE(first);
    const auto second = SessionLog::resume(path);
    REQUIRE_FALSE(second);
    CHECK(second.error().find("another program writes this session") != std::string::npos);
}

TEST_CASE("A log that is none, or lacks a line, says which line is wrong") {
    const test::TemporaryFolder folder("log");
    const std::string path = folder.file("a.session.jsonl");
    CHECK_FALSE(files::read_session(path));
    append_bytes(path, "");
    CHECK(files::read_session(path).error().find("holds no session") != std::string::npos);
    append_bytes(path, view::head_line(kHead) + "\n" + view::entry_line(entry_number(2)) + "\n");
    CHECK(files::read_session(path).error().find(":2: a line is missing") != std::string::npos);
}
