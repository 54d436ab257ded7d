#include <map>

#include "engine/base/index.h"
#include "engine/model/structure.h"
#include "ui/view/advice_text.h"
#include "ui/window/diagnose/diagnose_mode.h"

namespace halfsplit::window {

namespace {

/// Less than this would cover the diagram with what hardly anybody believes.
constexpr double kLeastMarked = 0.03;

}  // namespace

void DiagnoseMode::mark_expected(Marks& marks, const Pick& pick) const {
    if (expected_ == nullptr || pick.kind == Pick::Kind::wire) return;
    const auto mark = [&](const view::ExpectedRow& row) {
        if (row.finding.kind != diagnosis::Finding::Kind::voltage || !row.is_predicted) return;
        if (row.finding.against != model::kBodyId) return;
        const bool is_it = pick.kind == Pick::Kind::point ? row.finding.at == pick.name
                                                          : circuit().parts[at(row.part)].id == pick.name;
        if (!is_it) return;
        marks.notes[row.finding.at] =
            row.cells.expected + (row.has_limits ? "  (" + row.cells.limits + ")" : "");
    };
    for (const view::ExpectedRow& row : expected_->rows) mark(row);
    for (const view::ExpectedRow& row : extra_) mark(row);
}

void DiagnoseMode::mark_suspects(Marks& marks) const {
    const auto& conclusion = reasoning_.conclusion();
    if (!conclusion || (conclusion->readings == 0 && cleared_.empty())) return;
    std::map<std::string, double> shares;
    for (const SuspectLine& line : conclusion->suspects)
        for (const std::string& thing : line.things) shares[thing] += line.probability;
    for (const auto& [thing, share] : shares)
        if (share >= kLeastMarked && !thing.empty()) marks.doubts[thing] = view::share_text(share);
}

/// Where the tips belong for what is asked for.
void DiagnoseMode::mark_leads(Marks& marks) const {
    if (!asked_ || asked_->finding.kind != diagnosis::Finding::Kind::voltage) return;
    const auto bare = [](const std::string& tip) { return tip.substr(0, tip.find('@')); };
    marks.leads.push_back({LeadMark::Pole::positive, bare(asked_->finding.at), "+"});
    if (asked_->finding.against != model::kBodyId)
        marks.leads.push_back({LeadMark::Pole::negative, bare(asked_->finding.against), "-"});
}

Marks DiagnoseMode::marks() const {
    Marks marks;
    if (!drawn_) return marks;
    mark_suspects(marks);
    if (chosen_) mark_expected(marks, *chosen_);
    if (near_) mark_expected(marks, *near_);
    mark_leads(marks);
    marks.chosen = chosen_;
    return marks;
}

}  // namespace halfsplit::window
