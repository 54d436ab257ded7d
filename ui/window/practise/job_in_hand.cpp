#include "ui/window/practise/job_in_hand.h"

#include <algorithm>
#include <span>
#include <utility>

#include "engine/practice/session/replay.h"
#include "ui/files/practice_log.h"
#include "ui/window/practise/recorded_strip.h"

namespace halfsplit::window {

using practice::Entry;
using practice::Session;

JobInHand::JobInHand(std::shared_ptr<const files::ScenarioOnDisk> on_disk, Session session,
                     files::SessionLog log, std::string log_path)
    : on_disk_(std::move(on_disk)),
      session_(std::move(session)),
      log_(std::move(log)),
      log_path_(std::move(log_path)) {}

tl::expected<std::unique_ptr<JobInHand>, Diagnostics> JobInHand::open(const std::string& scenario_path) {
    auto read = files::read_scenario_on_disk(scenario_path);
    if (!read) return tl::unexpected(read.error());
    const auto on_disk = std::make_shared<const files::ScenarioOnDisk>(std::move(*read));
    const std::string path = files::default_log(*on_disk);
    auto session = Session::begin(on_disk->read.scenario, on_disk->read.circuit);
    if (!session) return tl::unexpected(one_problem(session.error()));
    auto log = files::open_log(path, *on_disk, scenario_path, files::user_name());
    if (!log) return tl::unexpected(one_problem(log.error()));
    auto job = std::unique_ptr<JobInHand>(new JobInHand(on_disk, std::move(*session), std::move(*log), path));
    if (const auto caught_up = job->catch_up(); !caught_up)
        return tl::unexpected(one_problem(path + ": " + caught_up.error()));
    return job;
}

tl::expected<void, std::string> JobInHand::catch_up() {
    const std::span<const Entry> all = entries();
    const auto after_last = std::ranges::find(all.rbegin(), all.rend(), practice::Verb::record,
                                              [](const Entry& entry) { return entry.action.verb; });
    const std::size_t recorded =
        after_last == all.rend() ? all.size() : static_cast<std::size_t>(all.rend() - after_last) - 1;
    if (auto until = practice::replay(session_, all.first(recorded)); !until) return until;
    if (recorded < all.size()) strip_ = recorded_strip(session_.vehicle(), all[recorded].action);
    return practice::replay(session_, all.subspan(recorded));
}

std::function<Trial()> JobInHand::trial(const practice::Action& action) const {
    return [borrowed_from = on_disk_, session = session_, action]() mutable -> Trial {
        const practice::ServicedVehicle before = session.vehicle();
        auto entry = session.act(action);
        if (!entry) return tl::unexpected(entry.error());
        return TriedAction{std::move(session), std::move(*entry), recorded_strip(before, action)};
    };
}

std::string JobInHand::keep(TriedAction tried) {
    if (!log_.append(tried.entry))
        return log_path_ + " cannot be written, so nothing was done; make room on the disk and do it again";
    session_ = std::move(tried.session);
    if (tried.strip) strip_ = std::move(tried.strip);
    return "";
}

}  // namespace halfsplit::window
