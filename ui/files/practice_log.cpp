#include "ui/files/practice_log.h"

#include <boost/uuid/random_generator.hpp>
#include <boost/uuid/uuid_io.hpp>
#include <chrono>
#include <cstdlib>
#include <ctime>

namespace halfsplit::files {

namespace {

bool is_over(const LoggedSession& logged) {
    return !logged.entries.empty() && logged.entries.back().action.verb == practice::Verb::done;
}

}  // namespace

std::string now_utc() {
    const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
    std::tm parts{};
    gmtime_r(&now, &parts);
    char text[32];
    const std::size_t size = std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &parts);
    return {text, size};
}

std::string user_name() {
    const char* name = std::getenv("USER");
    return name == nullptr || *name == '\0' ? "somebody" : name;
}

std::string default_log(const ScenarioOnDisk& scenario) {
    for (int number = 1;; ++number) {
        std::string path =
            scenario.read.scenario.id + (number > 1 ? "-" + std::to_string(number) : "") + ".session.jsonl";
        if (!holds_session(path)) return path;
        const auto logged = read_session(path);
        if (logged && !is_over(*logged) && logged->head.content == scenario.content) return path;
    }
}

tl::expected<SessionLog, std::string> open_log(const std::string& path, const ScenarioOnDisk& scenario,
                                               const std::string& scenario_file, const std::string& who) {
    if (!holds_session(path))
        return SessionLog::begin(
            path, {to_string(boost::uuids::random_generator()()), who, scenario.read.scenario.id,
                   scenario_file, scenario.content, now_utc()});
    auto log = SessionLog::resume(path);
    if (log && log->logged().head.content != scenario.content)
        return tl::unexpected(path + " is a session on " + log->logged().head.file +
                              ", or this job was changed since; another log is expected");
    return log;
}

}  // namespace halfsplit::files
