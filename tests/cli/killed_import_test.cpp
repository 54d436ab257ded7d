#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>
#include <catch2/catch.hpp>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <set>
#include <sstream>
#include <thread>

#include "tests/cli/program.h"
#include "tests/support/sanitized.h"
#include "tests/support/temporary_folder.h"

using halfsplit::test::contains;
using halfsplit::test::run_command;
using halfsplit::test::run_program;
using halfsplit::test::TemporaryFolder;

namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

const std::string kJob = "scenarios/horn-silent.scenario.xml";

/// Sessions as `results show` tells them, a line each.
std::set<std::string> sessions_in(const std::string& database) {
    const auto ran = run_program("results show --format jsonl --db " + database);
    INFO(ran.err);
    CHECK((ran.status == 0 || contains(ran.err, "no such file")));
    std::istringstream text(ran.out);
    std::set<std::string> sessions;
    for (std::string line; std::getline(text, line);) sessions.insert(line);
    return sessions;
}

/// A log of one session, and others that differ from it by who they are.
class Logs {
  public:
    explicit Logs(const std::string& folder) : folder_(folder) {
        const std::string first = folder_ + "/99999999.session.jsonl";
        const auto ran = run_command(
            "printf 'state sounding\\nmeasure voltmeter K2.87\\nreplace K2\\ndone\\n' | " HALFSPLIT_PROGRAM
            " practise --no-cache --who Nobody --log " +
            first + " " + kJob);
        REQUIRE(contains(ran.out, "Not in order"));
        std::ifstream file(first);
        std::getline(file, head_);
        rest_.assign(std::istreambuf_iterator<char>(file), {});
    }

    void add() {
        ++count_;
        std::string head = head_;
        const std::size_t who = head.find("Nobody");
        REQUIRE(who != std::string::npos);
        head.replace(who, 6, "Apprentice " + std::to_string(count_));
        const std::size_t id = head.find("\"id\":\"");
        REQUIRE(id != std::string::npos);
        head.replace(id + 6, 8, std::to_string(10000000 + count_));
        // Imports go by name: the latest come first, so that what is new is what is being written.
        std::ofstream(folder_ + "/" + std::to_string(10000000 - count_) + ".session.jsonl") << head << "\n"
                                                                                            << rest_;
    }

    /// With the one it began with.
    int count() const { return count_ + 1; }

  private:
    std::string folder_;
    std::string head_;
    std::string rest_;
    int count_ = 0;
};

pid_t start_import(const std::string& database, const std::string& folder) {
    const pid_t child = fork();
    if (child != 0) return child;
    if (chdir(HALFSPLIT_SOURCE_DIR) != 0) _exit(1);
    dup2(open("/dev/null", O_WRONLY), STDOUT_FILENO);
    execl(HALFSPLIT_PROGRAM, "halfsplit", "results", "import", "--no-cache", "--db", database.c_str(),
          folder.c_str(), static_cast<char*>(nullptr));
    _exit(1);
}

bool is_over(pid_t child) {
    siginfo_t info{};
    return waitid(P_PID, static_cast<id_t>(child), &info, WEXITED | WNOHANG | WNOWAIT) == 0 &&
           info.si_pid != 0;
}

fs::file_time_type last_written(const std::string& path) {
    std::error_code none_yet;
    return fs::last_write_time(path, none_yet);
}

/// Until the import has begun to write there, or is over.
void await_writing(const std::string& path, fs::file_time_type before, pid_t child) {
    while (last_written(path) == before && !is_over(child))
        std::this_thread::sleep_for(std::chrono::microseconds(200));
}

}  // namespace

// What is in the file after a kill has been seen, so no later kill may lose it, and in the end the file is
// the one that an import nobody disturbed writes.
TEST_CASE("Forty imports that are killed at any moment lose nothing, and import again cleanly") {
    const TemporaryFolder folder("import");
    const TemporaryFolder databases("imported");
    const std::string database = databases.file("killed.db");
    Logs logs(folder.path());
    const auto began = Clock::now();
    REQUIRE(run_program("results import --no-cache --db " + databases.file("first.db") + " " + folder.path())
                .status == 0);
    const auto first_us = std::chrono::duration_cast<std::chrono::microseconds>(Clock::now() - began).count();
    std::mt19937 generator(23);
    std::set<std::string> seen;
    int killed = 0;
    int half_done = 0;
    const int rounds = halfsplit::test::kSanitized ? 8 : 40;
    for (int round = 0; round < rounds || (half_done == 0 && round < 3 * rounds); ++round) {
        // Every other one is seen to write before it is killed: when the others begin to hangs on what else
        // the machine does. SQLite writes to the log beside the database first.
        const bool is_seen_to_write = round % 2 == 1;
        for (int i = 0; i < (is_seen_to_write ? 12 : 3); ++i) logs.add();
        const auto written = last_written(database + "-wal");
        const pid_t child = start_import(database, folder.path());
        // The first had one log to read, these have more: they are in the midst of it after that time.
        auto longest_us = 2 * static_cast<unsigned>(first_us);
        if (is_seen_to_write) {
            await_writing(database + "-wal", written, child);
            longest_us = static_cast<unsigned>(first_us) / 8;
        }
        std::this_thread::sleep_for(std::chrono::microseconds(generator() % longest_us));
        kill(child, SIGKILL);
        int status = 0;
        waitpid(child, &status, 0);
        killed += WIFSIGNALED(status) ? 1 : 0;
        const std::set<std::string> there = sessions_in(database);
        INFO("round " << round << ": " << there.size() << " of " << logs.count());
        CHECK(std::ranges::includes(there, seen));
        const bool is_under_way = there.size() > seen.size();
        half_done += is_under_way && static_cast<int>(there.size()) < logs.count() ? 1 : 0;
        seen = there;
    }
    // Else nothing would have been tried.
    CHECK(killed >= rounds / 4);
    CHECK(half_done > 0);
    const auto all = std::to_string(logs.count()) + " of " + std::to_string(logs.count()) + " logs read";
    for (const std::string& each : {database, databases.file("undisturbed.db")}) {
        const auto ran = run_program("results import --no-cache --db " + each + " " + folder.path());
        INFO(ran.out << ran.err);
        CHECK(ran.status == 0);
        CHECK(contains(ran.out, all));
    }
    const std::set<std::string> in_the_end = sessions_in(database);
    CHECK(static_cast<int>(in_the_end.size()) == logs.count());
    CHECK(in_the_end == sessions_in(databases.file("undisturbed.db")));
}
