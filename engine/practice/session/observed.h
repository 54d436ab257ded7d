#pragma once

#include <limits>
#include <string>
#include <vector>

namespace halfsplit::practice {

/// One thing that somebody at a vehicle saw, heard or measured. Nothing in it is known only to the program.
struct Observed {
    std::string about;  ///< "P3", "voltmeter K2.85", "voltmeter K2.85 to E5", "Fuse box"
    std::string what;   ///< in a word, to tell observations apart: "lit", "clicks", the unit of a value
    std::string shown;  ///< as people see it: "12.31 V", "glows dimly", "clicks 3 times"
    double value = std::numeric_limits<double>::quiet_NaN();  ///< where it is a number, in `what`
    double doubt = 0;  ///< half the width of where the quantity lies by the instrument's accuracy

    bool is_number() const { return value == value; }
    friend bool operator==(const Observed& a, const Observed& b) {
        const bool same_value = a.value == b.value || (!a.is_number() && !b.is_number());
        return a.about == b.about && a.what == b.what && a.shown == b.shown && same_value &&
               a.doubt == b.doubt;
    }
};

/// What it is about where somebody looked round: how many things there are that do nothing. It is there
/// whatever else is seen, so that it tells no vehicle from another.
inline constexpr const char* kTheRest = "and";

}  // namespace halfsplit::practice
