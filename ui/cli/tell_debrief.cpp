#include "ui/cli/tell_debrief.h"

#include <iostream>

#include "ui/cli/circuit_file.h"
#include "ui/cli/command.h"
#include "ui/cli/dictionary_options.h"
#include "ui/cli/progress.h"
#include "ui/files/known_circuits.h"
#include "ui/view/debrief_html.h"
#include "ui/view/debrief_text.h"

namespace halfsplit::cli {

namespace {

constexpr int kThreads = 2;

}  // namespace

int tell_debrief(const practice::Session& session, const practice::ScenarioWithCircuit& scenario,
                 const std::string& who, const DebriefOutput& output) {
    files::KnownCircuits circuits(!output.no_cache, tell_predictions());
    const auto expertise = circuits.expertise_on(scenario);
    if (!expertise) return refused(expertise.error(), kAnswerIsNo);
    Progress progress;
    const practice::Debrief debrief =
        practice::debrief_of(session, *expertise, kThreads, [&](int done, int of) {
            progress.tell(
                [&](std::ostream& out) { out << "looked back at " << done << " of " << of << " steps"; });
        });
    const std::string text = output.file.empty() ? view::debrief_text(session, *expertise, debrief)
                                                 : view::debrief_html(session, *expertise, debrief, who);
    if (const int status = write_out(text, output.file); status != kDone) return status;
    return debrief.verdict.is_right ? kDone : kAnswerIsNo;
}

}  // namespace halfsplit::cli
