#pragma once

#include <string>
#include <vector>

#include "engine/base/diagnostic.h"
#include "engine/diagnosis/dictionary/finding.h"
#include "engine/network/fault.h"

namespace halfsplit::practice {

/// What a customer says, and what is known of the vehicle.
struct JobCard {
    std::string vehicle;
    double mileage_km = 0;
    std::string complaint;
    std::vector<std::string> history;  ///< what happened before: repairs, weather, somebody's attempts
};

/// What the complaint comes to in the circuit: what is found in a state. Everybody who reads the complaint
/// could have found that, so it is where a diagnosis begins.
struct Symptom {
    int state = 0;  ///< index into the circuit
    diagnosis::Finding finding;
    double value = 0;  ///< V or A; of a sign, the number of the Sign
    Location where;
};

/// Levels of difficulty, the easiest first.
inline constexpr int kLevels = 5;

/// Something to find in a vehicle. A scenario stores faults, not their symptoms or readings.
struct Scenario {
    std::string id;
    std::string title;
    int level = 1;
    double budget_min = 30;  ///< the minutes a customer is ready to pay for
    JobCard job_card;
    int arrives_in = 0;                    ///< state the vehicle comes in, index into the circuit
    std::vector<Symptom> symptoms;         ///< at least one, unless nothing is wrong
    std::vector<std::string> instruments;  ///< ids of those that may be used
    std::vector<std::string> hints;        ///< the first gives away least
    std::vector<std::string> cautions;     ///< besides those that follow from the circuit
    std::vector<network::Fault> faults;    ///< none: nothing is wrong with the vehicle
    std::string lesson;                    ///< told when it is over
    Location where;
};

}  // namespace halfsplit::practice
