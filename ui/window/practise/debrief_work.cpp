#include "ui/window/practise/debrief_work.h"

#include <utility>

namespace halfsplit::window {

namespace {

/// Predicting takes about as long as looking back where nothing is kept.
constexpr std::size_t kParts = 1000;
constexpr std::size_t kPredicted = 400;
constexpr int kThreads = 2;

}  // namespace

std::function<DebriefResult(Progress&)> debrief_work(const JobInHand& job) {
    return [on_disk = job.on_disk(), session = job.session()](Progress& progress) -> DebriefResult {
        progress.of = kParts;
        ToldDebrief told;
        told.circuits = std::make_unique<files::KnownCircuits>(
            true, [&progress](const diagnosis::DictionaryProgress& now) {
                progress.done = kPredicted * static_cast<std::size_t>(now.done) /
                                static_cast<std::size_t>(std::max(now.of, 1));
            });
        auto expertise = told.circuits->expertise_on(on_disk->read);
        if (!expertise) return tl::unexpected(expertise.error());
        told.expertise = std::move(*expertise);
        progress.done = kPredicted;
        told.debrief = practice::debrief_of(session, told.expertise, kThreads, [&progress](int done, int of) {
            progress.done = kPredicted + (kParts - kPredicted) * static_cast<std::size_t>(done) /
                                             static_cast<std::size_t>(std::max(of, 1));
        });
        told.rows = view::debrief_rows(session, told.expertise, told.debrief);
        return told;
    };
}

}  // namespace halfsplit::window
