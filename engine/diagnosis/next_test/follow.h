#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "engine/diagnosis/next_test/choose.h"

namespace halfsplit::diagnosis {

/// The vehicle that is diagnosed, as somebody with it under their hands would answer.
struct PatientVehicle {
    /// What an instrument shows, or which Sign is seen; nullopt where the state cannot be read at all.
    std::function<std::optional<double>(const Test&)> read;
    /// Whether this fault, an index into the dictionary, is there, as one sees who has it in hand.
    std::function<bool(int fault)> is_broken;
    /// Mends it; true where nothing is wrong any more that anybody could notice.
    std::function<bool(int fault)> mend;
    /// What is still not as it should be, as somebody says who tries the vehicle out after a repair that was
    /// not enough. Empty: nobody does.
    std::function<std::vector<Reading>()> complain = {};
};

/// A diagnosis from beginning to end.
struct Diagnosis {
    struct Step {
        Choice choice;
        double value = 0;         ///< of a test
        bool was_broken = false;  ///< of a repair: something that was repaired was broken
        double minutes = 0;
    };
    std::vector<Step> steps;
    double minutes = 0;
    int tests = 0;
    int repairs = 0;
    int needless_repairs = 0;  ///< nothing of what was repaired was broken
    bool is_sound = false;     ///< the vehicle is in order in the end
};

/// Chooses in decide()'s stead: hears what decide() says and gives back that, or something else.
using Deviate = std::function<Choice(Choice chosen, const Evidence& evidence, const Bench& bench)>;

/// Takes the tests that decide() names and repairs when it says so, thinking ahead meanwhile (think_ahead.h),
/// until the vehicle is in order, or it is taken to be, or `most_steps` are done. A group of suspects is
/// looked at one after the other. A repair in vain clears what was repaired; after one that was needed but
/// not enough, readings begin anew, since they were another vehicle's, with what is still complained of. What
/// there is to be read is also the measure of others: the minutes of the best strategy we have.
Diagnosis follow(Hypotheses& hypotheses, const Workshop& workshop, const Permitted& permitted,
                 const PatientVehicle& vehicle, Evidence evidence, int most_steps,
                 const Deviate& deviate = {});

}  // namespace halfsplit::diagnosis
