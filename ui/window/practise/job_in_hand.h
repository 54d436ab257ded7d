#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/instruments/strip.h"
#include "engine/practice/session/session.h"
#include "ui/files/scenario_file.h"
#include "ui/files/session_file.h"

namespace halfsplit::window {

/// What came of an action on a copy of the session: nothing counts until it is kept.
struct TriedAction {
    practice::Session session;
    practice::Entry entry;
    std::optional<instruments::Strip> strip = {};  ///< of a recording, what its screen shows
};
using Trial = tl::expected<TriedAction, std::string>;

/// A job that somebody is at: the scenario, the session, and its log, which has every entry on the disk
/// before anybody sees it.
class JobInHand {
  public:
    /// Begins, or goes on with the log there is in the working directory. Errors: the scenario or the log
    /// cannot be used.
    static tl::expected<std::unique_ptr<JobInHand>, Diagnostics> open(const std::string& scenario_path);

    const practice::Scenario& scenario() const { return on_disk_->read.scenario; }
    const model::Circuit& circuit() const { return on_disk_->read.circuit; }
    std::shared_ptr<const model::Circuit> shared_circuit() const { return {on_disk_, &circuit()}; }
    const std::shared_ptr<const files::ScenarioOnDisk>& on_disk() const { return on_disk_; }
    const practice::Session& session() const { return session_; }
    /// Those that are in the log.
    const std::vector<practice::Entry>& entries() const { return log_.logged().entries; }
    const std::string& log_path() const { return log_path_; }
    const std::string& who() const { return log_.logged().head.who; }

    /// The recording that was done last; nullopt: none was.
    const std::optional<instruments::Strip>& strip() const { return strip_; }

    /// The action on a copy, to be done on any thread, even if the job is put away meanwhile.
    std::function<Trial()> trial(const practice::Action& action) const;
    /// Writes the entry down; then the session has gone on. A message where it cannot be written: then
    /// nothing was done.
    std::string keep(TriedAction tried);

  private:
    JobInHand(std::shared_ptr<const files::ScenarioOnDisk> on_disk, practice::Session session,
              files::SessionLog log, std::string log_path);
    /// Does again what the log says.
    tl::expected<void, std::string> catch_up();

    std::shared_ptr<const files::ScenarioOnDisk> on_disk_;
    practice::Session session_;
    files::SessionLog log_;
    std::string log_path_;
    std::optional<instruments::Strip> strip_;
};

}  // namespace halfsplit::window
