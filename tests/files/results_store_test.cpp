#include "ui/files/results_store.h"

#include <sys/wait.h>
#include <unistd.h>
#include <catch2/catch.hpp>

#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <random>
#include <thread>

using namespace halfsplit;
using files::ResultsStore;

namespace {

namespace fs = std::filesystem;

/// The name of a file that is not there, and is not in the end.
class Database {
  public:
    explicit Database(const std::string& name)
        : path_((fs::temp_directory_path() / ("halfsplit-" + name + std::to_string(getpid()) + ".db"))
                    .string()) {}
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;
    ~Database() {
        for (const char* end : {"", "-wal", "-shm"}) fs::remove(path_ + end);
    }
    const std::string& path() const { return path_; }

  private:
    std::string path_;
};

const practice::Job kJob{"content", "horn-silent", "Horn does nothing", "Horns", "open circuits", 2, 28.7,
                         60};

practice::Result result_number(int number) {
    return {"session " + std::to_string(number),
            "Ana 'A' \"B\"",
            "content",
            "2026-01-01T00:00:00Z",
            true,
            number % 2 == 0,
            0.1 * number,
            number,
            1,
            2,
            3};
}

}  // namespace

TEST_CASE("What is put in comes out the same, once, and the last word counts") {
    const Database database("store");
    {
        auto store = ResultsStore::open(database.path());
        REQUIRE(store);
        REQUIRE(store->put(kJob, result_number(1)));
        REQUIRE(store->put(kJob, result_number(1)));
        REQUIRE(store->put(kJob, result_number(2)));
    }
    auto store = ResultsStore::open(database.path());
    const auto all = store->all();
    REQUIRE(all);
    REQUIRE(all->results.size() == 2);
    CHECK((all->results[0] == result_number(1)));
    CHECK((all->results[1] == result_number(2)));
    REQUIRE(all->jobs.size() == 1);
    CHECK((all->jobs[0] == kJob));
    practice::Result changed = result_number(2);
    changed.is_over = false;
    REQUIRE(store->put(kJob, changed));
    CHECK((store->all()->results[1] == changed));
}

TEST_CASE("A file of something else is left as it is") {
    const Database database("else");
    std::ofstream(database.path())
        << "This is a letter, not a database, and it is long enough to be looked at twice: "
           "nothing in it may be changed by a program that takes it for its own.";
    const auto before = fs::file_size(database.path());
    const auto store = ResultsStore::open(database.path());
    CHECK_FALSE(store);
    CHECK(fs::file_size(database.path()) == before);
    CHECK_FALSE(ResultsStore::open("/no/such/folder/results.db"));
}

// What was acknowledged (by a byte through a pipe) before the kill has to be there afterwards.
TEST_CASE("A program that is killed while it puts results in loses none that it has acknowledged") {
    const Database database("kill");
    std::mt19937 generator(11);
    int acknowledged = 0;
    for (int round = 0; round < 40; ++round) {
        int ends[2];
        REQUIRE(pipe(ends) == 0);
        const pid_t child = fork();
        if (child == 0) {
            auto store = ResultsStore::open(database.path());
            for (int number = acknowledged + 1; store; ++number) {
                if (!store->put(kJob, result_number(number))) _exit(1);
                if (write(ends[1], "+", 1) != 1) _exit(1);
            }
            _exit(1);
        }
        close(ends[1]);
        char byte = 0;
        REQUIRE(read(ends[0], &byte, 1) == 1);
        ++acknowledged;
        std::this_thread::sleep_for(std::chrono::microseconds(2000 + generator() % 20000));
        kill(child, SIGKILL);
        int status = 0;
        waitpid(child, &status, 0);
        CHECK(WIFSIGNALED(status));
        while (read(ends[0], &byte, 1) == 1) ++acknowledged;
        close(ends[0]);
        const auto store = ResultsStore::open(database.path());
        REQUIRE(store);
        const auto all = store->all();
        REQUIRE(all);
        const int there = static_cast<int>(all->results.size());
        CHECK(there >= acknowledged);
        CHECK(there <= acknowledged + 1);
        acknowledged = there;
    }
    CHECK(acknowledged > 40);
}
