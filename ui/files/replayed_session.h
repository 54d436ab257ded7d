#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/practice/session/replay.h"
#include "engine/practice/session/session.h"
#include "ui/files/scenario_file.h"
#include "ui/files/session_file.h"

namespace halfsplit::files {

/// Scenarios by their content, wherever their files are.
class ScenarioShelf {
  public:
    /// Reads what is in the folder and below, as it is asked for.
    void add_folder(const std::string& folder);

    /// The scenario a log is about: the file it names, from here or from the log's folder, or else one of a
    /// folder's. A message where there is none of that content.
    tl::expected<std::shared_ptr<const ScenarioOnDisk>, std::string> find(const view::SessionHead& head,
                                                                          const std::string& log_path);

    /// All of the folders' that can be read.
    std::vector<std::shared_ptr<const ScenarioOnDisk>> all();

  private:
    std::shared_ptr<const ScenarioOnDisk> at(const std::string& path);

    std::vector<std::string> files_;
    std::map<std::string, std::shared_ptr<const ScenarioOnDisk>> read_;  ///< by path; nullptr: cannot be read
};

/// A session as its log has it, done again from the beginning.
struct ReplayedSession {
    std::shared_ptr<const ScenarioOnDisk> scenario;
    view::SessionHead head;
    practice::Session session;
};

/// An error: the log cannot be read, its scenario is not to be found, or it does not go the same way again.
tl::expected<ReplayedSession, std::string> replayed(const std::string& log_path, ScenarioShelf& shelf,
                                                    const practice::TellReplay& tell = {});

}  // namespace halfsplit::files
