#pragma once

#include <string>
#include <vector>

#include "engine/practice/fairness/best_way.h"
#include "engine/practice/session/session.h"

namespace halfsplit::practice {

/// How a session ended.
struct Verdict {
    bool is_over = false;  ///< the vehicle was handed back
    bool is_right =
        false;  ///< in order, put together, with nothing replaced for nothing where nothing was wrong
    bool is_repaired = false;              ///< nothing is wrong with it any more, whatever the way there
    std::vector<std::string> still_wrong;  ///< faults that are left, also those that were added
    std::vector<std::string> left_apart;   ///< "X3 is unplugged", "the jumper lead is on"
    std::vector<std::string> for_nothing;  ///< good parts that were replaced, good wires that were mended
    int slips = 0;                         ///< cautions not heeded
    int hints = 0;
    int questions = 0;  ///< looked, measured, recorded, inspected
    double minutes = 0;
    double best_min = 0;  ///< of the best strategy
    double budget_min = 0;
};

/// Throws std::logic_error only for slips of ours.
Verdict verdict_of(const Session& session, const BestWay& best);

/// What a fault is about, for who wants to know what to practise: "open circuits", "bad grounds", "shorts",
/// "intermittent faults", "control units and senders" …; "nothing wrong" of no fault.
std::string skill_of(const model::Circuit& circuit, const std::vector<network::Fault>& faults);

}  // namespace halfsplit::practice
