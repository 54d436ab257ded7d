#include "ui/view/debrief_html.h"

#include <algorithm>

#include "engine/base/index.h"
#include "ui/view/debrief_text.h"
#include "ui/view/fairness_text.h"
#include "ui/view/html_page.h"
#include "ui/view/plot.h"
#include "ui/view/session_text.h"
#include "ui/view/table.h"

namespace halfsplit::view {

using practice::Debrief;
using practice::Session;
using xml::WrittenElement;

namespace {

WrittenElement suspects_plot(const Session& session, const Debrief& debrief) {
    Plot plot{"How many suspects each step left: those that together have nine tenths of all probability.",
              "minutes",
              "suspects",
              {},
              true,
              false};
    plot.points.push_back({0, static_cast<double>(debrief.hindsight.suspects_at_first), false});
    for (const practice::StepInHindsight& step : debrief.hindsight.steps)
        plot.points.push_back({session.entries()[at(step.entry)].clock_min,
                               static_cast<double>(step.suspects()), step.could_tell_nothing});
    return figure_of(plot);
}

void add_list(WrittenElement& body, const std::vector<std::string>& lines) {
    WrittenElement& list = body.add(holder("ul"));
    for (const std::string& line : lines) list.add(element("li", "", line));
}

void add_verdict(WrittenElement& body, const Session& session, const practice::Verdict& verdict) {
    body.add(element("p", "verdict", verdict_sentence(session, verdict)));
    body.add(html_table(
        "", {"", "minutes", "looked or measured", "hints", "cautions not heeded", "good parts replaced"},
        {{"this session", fixed(verdict.minutes, 1), std::to_string(verdict.questions),
          std::to_string(verdict.hints), std::to_string(verdict.slips),
          std::to_string(verdict.for_nothing.size())},
         {"the best strategy", fixed(verdict.best_min, 1), "", "", "", ""},
         {"the customer pays for", fixed(verdict.budget_min, 1), "", "", "", ""}},
        {false, true, true, true, true, true}));
}

void add_steps(WrittenElement& body, const Session& session, const practice::Expertise& expertise,
               const Debrief& debrief) {
    std::vector<std::vector<std::string>> rows;
    for (const DebriefRow& row : debrief_rows(session, expertise, debrief))
        rows.push_back({row.clock, row.action, row.answer, row.left, row.remark});
    body.add(element("h2", "", "Step by step"));
    body.add(suspects_plot(session, debrief));
    body.add(html_table("steps", {"clock", "what was done", "what came of it", "suspects left", "remarks"},
                        rows, {true, false, false, true, false}));
}

void add_slips(WrittenElement& body, const Session& session) {
    std::vector<std::string> lines;
    for (const practice::Entry& entry : session.entries())
        for (const practice::Slip& slip : entry.slips)
            lines.push_back("Step " + std::to_string(entry.number) + ": " + slip.what + ". " + slip.why +
                            ".");
    if (lines.empty()) return;
    body.add(element("h2", "", "Cautions not heeded"));
    add_list(body, lines);
}

void add_hidden(WrittenElement& body, const Session& session, const Debrief& debrief) {
    body.add(element("h2", "", "What it was"));
    add_list(body, hidden_lines(session.scenario(), session.circuit()));
    if (!session.scenario().lesson.empty()) body.add(element("p", "", session.scenario().lesson));
    if (debrief.physics.cause.empty()) return;
    body.add(element("h2", "", "Why it read as it did"));
    body.add(element("p", "", debrief.physics.cause + " " + debrief.physics.reading));
}

}  // namespace

std::string debrief_html(const Session& session, const practice::Expertise& expertise, const Debrief& debrief,
                         const std::string& who) {
    WrittenElement body = holder("body");
    body.add(element("h1", "", session.scenario().title));
    body.add(element("p", "sub",
                     who + ", level " + std::to_string(session.scenario().level) + ", " +
                         session.scenario().job_card.vehicle + " (" + session.circuit().title + ")"));
    body.add(element("p", "", "\"" + session.scenario().job_card.complaint + "\""));
    add_verdict(body, session, debrief.verdict);
    if (debrief.verdict.is_over) {
        add_hidden(body, session, debrief);
        add_steps(body, session, expertise, debrief);
        add_slips(body, session);
        body.add(element("h2", "", "The best strategy"));
        WrittenElement& list = body.add(holder("ul"));
        for (const diagnosis::Diagnosis::Step& step : debrief.best.diagnosis.steps)
            list.add(element("li", "", step_text(expertise, debrief.best, step)));
    }
    return html_page(session.scenario().title + ": debrief", kReportStyle, std::move(body));
}

}  // namespace halfsplit::view
