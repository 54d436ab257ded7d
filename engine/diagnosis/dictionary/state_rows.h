#pragma once

#include <memory>
#include <set>
#include <vector>

#include "engine/diagnosis/dictionary/state_base.h"
#include "engine/diagnosis/dictionary/trial.h"
#include "engine/diagnosis/dictionary/what_moves.h"

namespace halfsplit::diagnosis {

/// The rows of one state of a dictionary, each by the quickest way that is right for it. Borrows all it is
/// given.
class StateRows {
  public:
    /// `settle_anew`: whether faults that may have mattered on the way into a state of a circuit that lives
    /// are settled anew.
    StateRows(const model::Circuit& circuit, const StateBase& base, int threads, bool settle_anew,
              Dictionary& dictionary, int state);

    /// Fills one row and says how. The same whatever was filled before, by whatever thread.
    void fill(int row, int thread);

    /// See Trial.
    int connected() const;

  private:
    /// Leaks to a node that very many leak to (the supply, shorts to it) would tie all others to that node
    /// and slow down every row, so they have trials of their own.
    enum Group { ordinary, to_hub, groups };
    Group group_of(const std::vector<network::FaultChange>& change) const;
    void list_leaks();
    Trial& trial(int thread, Group group);
    Told told_quickly(int row, int thread, std::span<float> values);
    Told anew(int row, std::span<float> values) const;

    const model::Circuit& circuit_;
    const StateBase& base_;
    bool settle_anew_;
    Dictionary& dictionary_;
    int state_;
    WhatMoves what_moves_;
    std::vector<StagedChange> changes_;
    std::vector<int> hub_;  ///< per stage
    StagedLeaks leaks_[groups];
    std::vector<std::unique_ptr<Trial>> trials_[groups];  ///< per thread
};

}  // namespace halfsplit::diagnosis
