#include "ui/window/practise/debrief_work.h"

#include <algorithm>
#include <utility>

#include "ui/window/frame/cancelled.h"

namespace halfsplit::window {

namespace {

/// Predicting takes about as long as looking back where nothing is kept.
constexpr int kParts = 1000;
constexpr int kPredicted = 400;
constexpr int kThreads = 2;

DebriefResult worked_out(const files::ScenarioOnDisk& job, const practice::Session& session,
                         Progress& progress) {
    ToldDebrief told;
    told.circuits =
        std::make_unique<files::KnownCircuits>(true, [&progress](const diagnosis::DictionaryProgress& now) {
            const double share = static_cast<double>(now.done) / std::max(now.of, 1);
            tell_progress(progress, static_cast<int>(kPredicted * share), kParts);
        });
    auto expertise = told.circuits->expertise_on(job.read);
    if (!expertise) return tl::unexpected(expertise.error());
    told.expertise = std::move(*expertise);
    tell_progress(progress, kPredicted, kParts);
    told.debrief = practice::debrief_of(session, told.expertise, kThreads, [&progress](int done, int of) {
        const double share = static_cast<double>(done) / std::max(of, 1);
        tell_progress(progress, static_cast<int>(kPredicted + (kParts - kPredicted) * share), kParts);
    });
    told.rows = view::debrief_rows(session, told.expertise, told.debrief);
    return told;
}

}  // namespace

std::function<DebriefResult(Progress&)> debrief_work(const JobInHand& job) {
    return [on_disk = job.on_disk(), session = job.session()](Progress& progress) -> DebriefResult {
        try {
            return worked_out(*on_disk, session, progress);
        } catch (const Cancelled&) {
            return tl::unexpected(Diagnostics{});
        }
    };
}

}  // namespace halfsplit::window
