#include "tests/journeys/real_window.h"

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <thread>

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

namespace halfsplit::test {

namespace {

using Clock = std::chrono::steady_clock;

/// Between two things a hand does: several frames, also of a slow rasteriser.
constexpr auto kBetween = std::chrono::milliseconds(120);

void pause() {
    std::this_thread::sleep_for(kBetween);
}

pid_t started(const std::vector<std::string>& command, const std::filesystem::path& folder,
              const std::string& display, int inherited) {
    const pid_t child = fork();
    if (child != 0) return child;
    if (!folder.empty() && chdir(folder.c_str()) != 0) _exit(126);
    if (!display.empty()) setenv("DISPLAY", display.c_str(), 1);
    // The graphics driver is unloaded before leaks are looked for, so that its own have no name to leave out
    // by. Leaks of the window's modes are looked for in tests/window, which have no driver.
    setenv("ASAN_OPTIONS", "detect_leaks=0", 1);
    const int nowhere = open("/dev/null", O_RDWR);
    if (inherited != 1) dup2(nowhere, 1);
    dup2(nowhere, 0);
    std::vector<char*> arguments;
    for (const std::string& word : command) arguments.push_back(const_cast<char*>(word.c_str()));
    arguments.push_back(nullptr);
    execvp(arguments.front(), arguments.data());
    _exit(127);
}

/// An X server with a display number of its own choice: "7".
std::string display_of_new_screen(pid_t& screen) {
    int ends[2];
    if (pipe(ends) != 0) throw std::runtime_error("no pipe");
    const std::string number = std::to_string(ends[1]);
    screen = started(
        {"Xvfb", "-displayfd", number, "-screen", "0", "1720x1100x24", "-nolisten", "tcp", "-noreset"}, "",
        "", 0);
    close(ends[1]);
    std::string display;
    char letter = 0;
    while (read(ends[0], &letter, 1) == 1 && letter != '\n') display += letter;
    close(ends[0]);
    if (display.empty()) throw std::runtime_error("Xvfb did not come up");
    return ":" + display;
}

std::filesystem::path artefacts() {
    const char* wanted = std::getenv("HALFSPLIT_ARTEFACTS");
    std::filesystem::path folder = wanted == nullptr
                                       ? std::filesystem::temp_directory_path() / "halfsplit-artefacts"
                                       : std::filesystem::path(wanted);
    std::filesystem::create_directories(folder);
    return folder;
}

}  // namespace

RealWindow::RealWindow(const std::string& name, const std::vector<std::string>& arguments)
    : folder_(std::filesystem::temp_directory_path() /
              ("halfsplit-" + name + "-" + std::to_string(getpid()))),
      places_(folder_ / "places.json") {
    std::filesystem::create_directories(folder_);
    display_ = display_of_new_screen(screen_);
    std::vector<std::string> command{HALFSPLIT_PROGRAM, "window"};
    command.insert(command.end(), arguments.begin(), arguments.end());
    const std::string picture = (artefacts() / (name + ".png")).string();
    for (const std::string& word : {std::string("--places"), places_.string(), std::string("--png"), picture})
        command.push_back(word);
    program_ = started(command, folder_, display_, 1);
    if (!waits_for("paper", 30)) throw std::runtime_error("the window did not come up");
    xdotool("search --sync --name Halfsplit windowfocus");
}

RealWindow::~RealWindow() {
    for (const pid_t child : {program_, screen_})
        if (child > 0) {
            kill(child, SIGKILL);
            waitpid(child, nullptr, 0);
        }
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
}

std::map<std::string, RealWindow::Place> RealWindow::places() const {
    std::ifstream file(places_);
    const nlohmann::json read = nlohmann::json::parse(file, nullptr, false);
    std::map<std::string, Place> places;
    if (!read.is_object()) return places;
    for (const auto& [name, box] : read.items())
        places[name] = {(box[0].get<int>() + box[2].get<int>()) / 2,
                        (box[1].get<int>() + box[3].get<int>()) / 2};
    return places;
}

void RealWindow::xdotool(const std::string& arguments) const {
    const std::string command = "DISPLAY=" + display_ + " xdotool " + arguments + " >/dev/null 2>&1";
    if (std::system(command.c_str()) != 0) throw std::runtime_error("this went wrong: " + command);
    pause();
}

bool RealWindow::waits_until(const std::function<bool()>& holds, double seconds) const {
    const auto end = Clock::now() + std::chrono::duration<double>(seconds);
    while (Clock::now() < end) {
        if (holds()) return true;
        std::this_thread::sleep_for(std::chrono::milliseconds(50));
    }
    return holds();
}

void RealWindow::rests() const {
    std::this_thread::sleep_for(std::chrono::milliseconds(800));
}

bool RealWindow::is_there(const std::string& place) {
    return places().contains(place);
}

bool RealWindow::waits_for(const std::string& place, double seconds) {
    return waits_until([&] { return is_there(place); }, seconds);
}

void RealWindow::click(const std::string& place, int button) {
    if (!waits_for(place)) throw std::runtime_error("nothing on the screen is called " + place);
    pause();
    const Place at = places().at(place);
    xdotool("mousemove " + std::to_string(at.x) + " " + std::to_string(at.y));
    xdotool("click " + std::to_string(button));
}

bool RealWindow::reaches(const std::string& place, double seconds) {
    // On its own slider: what lies further to the left may turn by itself.
    constexpr const char* kInTheTrolley = "mousemove 1586 500";
    constexpr int kLongTrolley = 25;
    const auto end = Clock::now() + std::chrono::duration<double>(seconds);
    while (Clock::now() < end) {
        xdotool(kInTheTrolley);
        for (const char* wheel : {"click 5", "click 4"})
            for (int i = 0; i < kLongTrolley; ++i) {
                if (is_there(place)) return true;
                xdotool(wheel);
            }
    }
    return is_there(place);
}

void RealWindow::type(const std::string& ascii) {
    xdotool("type --delay 60 '" + ascii + "'");
}

void RealWindow::key(const std::string& keys) {
    xdotool("key " + keys);
}

int RealWindow::leave() {
    key("ctrl+q");
    int status = -1;
    if (!waits_until([&] { return waitpid(program_, &status, WNOHANG) == program_; }, 20)) return -1;
    program_ = -1;
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

}  // namespace halfsplit::test
