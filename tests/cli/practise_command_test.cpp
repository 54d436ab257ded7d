#include <sys/wait.h>
#include <unistd.h>
#include <catch2/catch.hpp>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <random>
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

const std::string kScenario = "scenarios/horn-silent.scenario.xml";
/// Stands once in every answer.
const std::string kAnswered = " min, in all ";
const std::string kRight =
    "state sounding\\nmeasure voltmeter K2.87\\nmeasure voltmeter X3.1b\\nmeasure voltmeter X3.1a\\n"
    "state key-off\\nmend X3.1\\nstate sounding\\ndone\\n";

halfsplit::test::Ran practised(const std::string& script, const std::string& log,
                               const std::string& more = "") {
    return run_command("printf '" + script + "' | " HALFSPLIT_PROGRAM " practise " + kScenario +
                       " --no-cache --log " + log + " " + more);
}

std::vector<std::string> lines_of(const std::string& path) {
    std::ifstream file(path);
    std::vector<std::string> lines;
    for (std::string line; std::getline(file, line);) lines.push_back(line);
    return lines;
}

}  // namespace

TEST_CASE("A session through a pipe is played to its end and told how it went") {
    const TemporaryFolder folder("practise");
    const auto ran = practised(kRight, folder.file("a.session.jsonl"));
    INFO(ran.out << ran.err);
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "Job card: Horn does nothing"));
    CHECK(contains(ran.out, "> measure voltmeter K2.87\n  voltmeter K2.87  12.60 V"));
    CHECK(contains(ran.out, "Right: the vehicle is in order."));
    CHECK(contains(ran.out, "open:X3.1"));
    CHECK(contains(ran.out, "No current flows through contact X3.1"));
    CHECK(lines_of(folder.file("a.session.jsonl")).size() == 9);
}

TEST_CASE("The wrong part, and a caution that was not heeded, are told") {
    const TemporaryFolder folder("wrong");
    const auto ran = practised("state sounding\\nunplug X3\\nplug X3\\nreplace K2\\ndone\\n",
                               folder.file("a.session.jsonl"));
    CHECK(ran.status == 1);
    CHECK(contains(ran.out, "Not in order: the vehicle still has open:X3.1."));
    CHECK(contains(ran.out, "Replaced or mended for nothing: K2."));
    CHECK(contains(ran.out, "a plug was handled with the ignition on"));
}

TEST_CASE("Neither what is shown nor the log gives the fault away before the vehicle is handed back") {
    const TemporaryFolder folder("hidden");
    const auto ran =
        practised("help\\nhelp parts\\njob\\nstate sounding\\nlook\\nmeasure voltmeter K2.87\\nquit\\n",
                  folder.file("a.session.jsonl"));
    CHECK(ran.status == 0);
    std::ostringstream log;
    log << std::ifstream(folder.file("a.session.jsonl")).rdbuf();
    for (const std::string& text : {ran.out, log.str()}) {
        CHECK_FALSE(contains(text, "open:"));
        CHECK_FALSE(contains(text, "X3.1 "));
    }
}

TEST_CASE("A session goes on where it stood, and another job is not put into its log") {
    const TemporaryFolder folder("resume");
    const std::string log = folder.file("a.session.jsonl");
    CHECK(contains(practised("state sounding\\nlook P3\\n", log).out, "the same command goes on from here"));
    const auto on = practised("mend X3.1\\ndone\\n", log);
    CHECK(contains(on.out, "Going on after 2 steps, 0.7 min."));
    CHECK(on.status == 0);
    std::string text = run_command("cat " + kScenario).out;
    text.replace(text.find("open:X3.1"), 9, "open:X3.2");
    text.replace(text.find("../circuits"), 11, fs::absolute("circuits").string());
    const std::string other = folder.file("other.scenario.xml");
    fs::create_directories(folder.file("x"));
    std::ofstream(other) << text;
    const auto refused = run_program("practise " + other + " --log " + log + " < /dev/null");
    CHECK(refused.status == 1);
}

TEST_CASE("A log that was tampered with is found out") {
    const TemporaryFolder folder("tampered");
    const std::string log = folder.file("a.session.jsonl");
    practised(kRight, log);
    CHECK(run_program("debrief --no-cache " + log).status == 0);
    std::vector<std::string> lines = lines_of(log);
    const std::size_t at = lines[2].find("12.6");
    REQUIRE(at != std::string::npos);
    lines[2].replace(at, 4, "11.6");
    std::ofstream file(log);
    for (const std::string& line : lines) file << line << "\n";
    file.close();
    const auto ran = run_program("debrief --no-cache " + log);
    CHECK(ran.status == 1);
    CHECK(contains(ran.err, "the vehicle answers otherwise than it did"));
}

TEST_CASE("Sessions become a class table, and one that comes twice counts once") {
    const TemporaryFolder folder("results");
    practised(kRight, folder.file("ana.session.jsonl"), "--who Ana");
    practised("replace K2\\ndone\\n", folder.file("ben.session.jsonl"), "--who Ben");
    const std::string db = " --db " + folder.file("r.db") + " ";
    const TemporaryFolder empty("no-logs");
    CHECK(run_program("results import" + db + "--no-cache " + empty.path()).status == 2);
    CHECK(contains(run_program("results import" + db + "--no-cache " + folder.path()).out, "2 of them new"));
    CHECK(contains(run_program("results import" + db + "--no-cache " + folder.path()).out, "0 of them new"));
    const auto json = nlohmann::json::parse(run_program("results show" + db + "--format json").out);
    REQUIRE(json["people"].size() == 2);
    CHECK(json["people"][0]["who"] == "Ana");
    CHECK(json["people"][0]["right"] == 1);
    CHECK(json["people"][1]["replaced_for_nothing"] == 1);
    CHECK(json["sessions"].size() == 2);
    CHECK(contains(run_program("results show" + db).out, "open circuits"));
    CHECK(contains(run_program("results show" + db + "--format html").out, "<svg"));
    CHECK(contains(run_program("results next" + db + "Ben").out,
                   "Ben should practise open circuits at level 1"));
    CHECK(run_program("results next" + db + "Cem").status == 2);
    CHECK(run_program("results show --db " + folder.file("none.db")).status == 1);
}

// Each line an apprentice has seen an answer to must be in the log of a session that was killed, and the
// session must go on from there.
TEST_CASE("Two hundred sessions that are killed at any moment lose nothing that was shown") {
    const TemporaryFolder folder("killed");
    const int rounds = halfsplit::test::kSanitized ? 20 : 200;
    std::mt19937 generator(5);
    int killed = 0;
    int shown_in_all = 0;
    for (int round = 0; round < rounds; ++round) {
        const std::string log = folder.file(std::to_string(round) + ".session.jsonl");
        int in[2];
        int out[2];
        REQUIRE(pipe(in) == 0);
        REQUIRE(pipe(out) == 0);
        const pid_t child = fork();
        if (child == 0) {
            dup2(in[0], STDIN_FILENO);
            dup2(out[1], STDOUT_FILENO);
            for (const int end : {in[0], in[1], out[0], out[1]}) close(end);
            if (chdir(HALFSPLIT_SOURCE_DIR) != 0) _exit(1);
            execl(HALFSPLIT_PROGRAM, "halfsplit", "practise", kScenario.c_str(), "--log", log.c_str(),
                  static_cast<char*>(nullptr));
            _exit(1);
        }
        close(in[0]);
        close(out[1]);
        std::string script;
        for (int i = 0; i < 300; ++i) script += "measure voltmeter K2.87\nset S1=run\nlook\nset S1=off\n";
        std::thread writer([&] {
            // The pipe breaks when the program is killed: that is no signal to this one.
            sigset_t pipe_broken;
            sigemptyset(&pipe_broken);
            sigaddset(&pipe_broken, SIGPIPE);
            pthread_sigmask(SIG_BLOCK, &pipe_broken, nullptr);
            [[maybe_unused]] const ssize_t written = write(in[1], script.data(), script.size());
        });
        std::string shown;
        char block[4096];
        // Every other one is killed while it answers, the rest at any moment, also before the first answer.
        while (round % 2 == 0 && !contains(shown, kAnswered)) {
            const ssize_t size = read(out[0], block, sizeof block);
            REQUIRE(size > 0);
            shown.append(block, static_cast<std::size_t>(size));
        }
        std::this_thread::sleep_for(std::chrono::microseconds(generator() % 60000));
        kill(child, SIGKILL);
        int status = 0;
        waitpid(child, &status, 0);
        killed += WIFSIGNALED(status) ? 1 : 0;
        for (ssize_t size; (size = read(out[0], block, sizeof block)) > 0;)
            shown.append(block, static_cast<std::size_t>(size));
        writer.join();
        close(in[1]);
        close(out[0]);
        int answers = 0;
        for (std::size_t at = shown.find(kAnswered); at != std::string::npos;
             at = shown.find(kAnswered, at + 1))
            ++answers;
        shown_in_all += answers;
        const int logged = std::max(1, static_cast<int>(lines_of(log).size())) - 1;
        INFO("round " << round << ": " << answers << " answers, " << logged << " logged");
        CHECK(logged >= answers);
        const auto on =
            run_command("printf 'quit\\n' | " HALFSPLIT_PROGRAM " practise " + kScenario + " --log " + log);
        CHECK(on.status == 0);
    }
    CHECK(killed == rounds);
    // Else nothing would have been tried.
    CHECK(shown_in_all >= rounds / 2);
}

TEST_CASE("What practise cannot do is told") {
    CHECK(run_program("practise scenarios/none.scenario.xml").status == 1);
    CHECK(run_program("practise circuits/horn.circuit.xml").status == 1);
    CHECK(run_program("practise").status == 2);
    CHECK(run_program("debrief " + kScenario).status == 1);
}

TEST_CASE("check proves scenarios, and says what is not fair") {
    const auto fair = run_program("check --no-cache --way scenarios/horn-silent.scenario.xml");
    INFO(fair.err);
    CHECK(fair.status == 0);
    CHECK(contains(fair.out, ": fair; level "));
    CHECK(contains(fair.out, "repair "));
    const TemporaryFolder folder("check");
    std::string text = run_command("cat " + kScenario).out;
    text.replace(text.find("open:X3.1"), 9, "open:P3");
    text.replace(text.find("../circuits"), 11,
                 fs::relative(fs::path(HALFSPLIT_SOURCE_DIR) / "circuits", folder.path()).string());
    std::ofstream(folder.file("a.scenario.xml")) << text;
    const auto unfair = run_program("check --no-cache " + folder.file("a.scenario.xml"));
    CHECK(unfair.status == 1);
    CHECK(contains(unfair.err, "a.scenario.xml:11:5: error: the hidden faults do not lead to this"));
}

TEST_CASE("draft writes scenarios that check finds fair") {
    const TemporaryFolder folder("draft");
    const auto drafted =
        run_program("draft circuits/horn.circuit.xml --no-cache --level 2 --count 4 -o " + folder.path());
    INFO(drafted.err);
    REQUIRE(drafted.status == 0);
    const auto checked = run_program("check --no-cache " + folder.path() + "/*.scenario.xml");
    INFO(checked.err);
    CHECK(checked.status == 0);
    CHECK(contains(checked.out, "best strategy, min"));
}
