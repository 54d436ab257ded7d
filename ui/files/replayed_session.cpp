#include "ui/files/replayed_session.h"

#include <algorithm>
#include <filesystem>

namespace halfsplit::files {

namespace fs = std::filesystem;

using Found = std::shared_ptr<const ScenarioOnDisk>;

void ScenarioShelf::add_folder(const std::string& folder) {
    std::error_code error;
    for (fs::recursive_directory_iterator each(folder, error), end; !error && each != end;
         each.increment(error))
        if (each->path().string().ends_with(".scenario.xml")) files_.push_back(each->path().string());
    std::ranges::sort(files_);
}

Found ScenarioShelf::at(const std::string& path) {
    const auto known = read_.find(path);
    if (known != read_.end()) return known->second;
    auto scenario = read_scenario_on_disk(path);
    return read_
        .emplace(path, scenario ? std::make_shared<const ScenarioOnDisk>(std::move(*scenario)) : Found())
        .first->second;
}

tl::expected<Found, std::string> ScenarioShelf::find(const view::SessionHead& head,
                                                     const std::string& log_path) {
    std::vector<std::string> paths{head.file, (fs::path(log_path).parent_path() / head.file).string()};
    paths.insert(paths.end(), files_.begin(), files_.end());
    for (const std::string& path : paths)
        if (Found found = at(path); found && found->content == head.content) return found;
    return tl::unexpected(log_path + ": the job '" + head.scenario + "' is not to be found as it was (" +
                          head.file + "); name its folder with --scenarios");
}

std::vector<Found> ScenarioShelf::all() {
    std::vector<Found> all;
    for (const std::string& path : files_)
        if (Found found = at(path)) all.push_back(std::move(found));
    return all;
}

tl::expected<ReplayedSession, std::string> replayed(const std::string& log_path, ScenarioShelf& shelf,
                                                    const practice::TellReplay& tell) {
    const auto logged = read_session(log_path);
    if (!logged) return tl::unexpected(logged.error());
    const auto scenario = shelf.find(logged->head, log_path);
    if (!scenario) return tl::unexpected(scenario.error());
    auto session = practice::Session::begin((*scenario)->read.scenario, (*scenario)->read.circuit);
    if (!session) return tl::unexpected(log_path + ": " + session.error());
    if (const auto same = practice::replay(*session, logged->entries, tell); !same)
        return tl::unexpected(log_path + ": " + same.error());
    return ReplayedSession{*scenario, logged->head, std::move(*session)};
}

}  // namespace halfsplit::files
