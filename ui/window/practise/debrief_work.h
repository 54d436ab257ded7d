#pragma once

#include <functional>
#include <memory>
#include <vector>

#include <tl/expected.hpp>

#include "engine/practice/verdict/debrief.h"
#include "ui/files/known_circuits.h"
#include "ui/view/debrief_text.h"
#include "ui/window/frame/task.h"
#include "ui/window/practise/job_in_hand.h"

namespace halfsplit::window {

/// A debrief with all it is told from.
struct ToldDebrief {
    std::unique_ptr<files::KnownCircuits> circuits;  ///< what the rest borrows from
    practice::Expertise expertise;
    practice::Debrief debrief;
    std::vector<view::DebriefRow> rows;
};
using DebriefResult = tl::expected<ToldDebrief, Diagnostics>;

/// What works it out, on any thread, even if the job is put away meanwhile. The session must be over.
std::function<DebriefResult(Progress&)> debrief_work(const JobInHand& job);

}  // namespace halfsplit::window
