#pragma once

#include <optional>
#include <string>

#include "ui/window/frame/frame.h"
#include "ui/window/frame/worker.h"
#include "ui/window/paper/marks.h"
#include "ui/window/practise/debrief_work.h"
#include "ui/window/practise/seen.h"

namespace halfsplit::window {

/// What is told when a vehicle has been handed back: worked out beside the window, then gone through step by
/// step.
class DebriefDesk {
  public:
    void begin(const JobInHand& job);
    /// Nothing is told any more: another job is opened.
    void clear();
    /// Takes up what has been worked out.
    void advance();
    bool is_working() const { return worker_.is_running(); }
    const ToldDebrief* told() const { return told_ ? &*told_ : nullptr; }

    void drawers(const Frame& frame, const JobInHand& job);
    /// What had been seen and done by the step that is looked at, and who was under suspicion after it.
    Marks marks(const JobInHand& job, const std::vector<diagnosis::SignSource>& sources) const;
    /// One step on, or back.
    void go(int steps);
    /// What the step that somebody has just gone to was about, once.
    std::optional<Pick> take_gone_to(const JobInHand& job);

  private:
    void verdict_drawer(const Frame& frame, const JobInHand& job);
    void waiting(const Frame& frame, const JobInHand& job);
    void steps_drawer(const Frame& frame);
    void best_drawer();
    void write_page(const JobInHand& job);
    void mark_suspects(const model::Circuit& circuit, Marks& marks) const;

    Worker<DebriefResult> worker_;
    std::optional<ToldDebrief> told_;
    std::string trouble_;
    std::string written_;  ///< where the page is
    int step_ = 0;         ///< from 0
    int shown_step_ = -1;  ///< that take_gone_to() was last asked at
};

}  // namespace halfsplit::window
