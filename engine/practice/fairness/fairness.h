#pragma once

#include "engine/practice/fairness/best_way.h"

namespace halfsplit::practice {

/// What is proved of a scenario before anybody practises on it.
struct Fairness {
    Diagnostics problems;  ///< none: it is fair
    BestWay way;
    /// Groups of suspects that no permitted reading tells apart and that the complaint alone leaves, those
    /// together that make nine tenths of all probability.
    int suspects_at_first = 0;
    double belief_at_first = 0;  ///< of the group the hidden fault is in, from the complaint alone
};

/// Above the easiest level the complaint alone must leave at least so many groups of suspects, and the right
/// one must not be more likely than this.
inline constexpr int kLeastSuspects = 3;
inline constexpr double kMostBelief = 0.5;

/// How long the best way may take at a level, in minutes, and how long it must: levels overlap by a little,
/// since minutes are not all there is to it.
struct LevelMinutes {
    double least = 0;
    double most = 0;
};
LevelMinutes minutes_of_level(int level);

/// Proves that the hidden faults lead to the symptoms and the sound vehicle does not, that the best strategy
/// finds them with what is allowed and within the minutes, that the complaint alone does not single them out,
/// and that the level is right.
Fairness fairness_of(const Scenario& scenario, const Expertise& expertise);

}  // namespace halfsplit::practice
