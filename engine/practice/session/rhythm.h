#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "engine/diagnosis/dictionary/sign.h"
#include "engine/model/circuit.h"
#include "engine/simulation/settle.h"

namespace halfsplit::practice {

/// How something that comes and goes by itself is seen or heard to.
struct Rhythm {
    bool comes_and_goes = false;
    bool goes_out = false;  ///< all the way, not only to where it is weak
    double per_min = 0;     ///< 0 where it was not watched for a whole round

    friend bool operator==(const Rhythm&, const Rhythm&) = default;
};

/// What somebody sees and hears who stands beside a vehicle for a moment and touches nothing.
struct Glance {
    std::vector<diagnosis::Sign> signs;  ///< one per source; of what goes too fast for the eye, what it seems
    std::vector<Rhythm> rhythms;         ///< one per source
    std::vector<char> moves;             ///< one per travel of the network
    std::map<std::string, double> clicks_per_min;  ///< of relays that click again and again, by their ids
    bool is_awaited = false;                       ///< who had more patience might have seen more
};

/// Two rounds of a direction indicator.
inline constexpr double kGlanceS = 2;

/// Follows a copy of the course, so nothing comes of it: for kGlanceS, or for as long as one has patience
/// where something is timed to happen within diagnosis::kWatchS. `signs`: as they are now, which is what is
/// seen where nothing goes on by itself, or where its course comes to an error.
Glance glance_at(const model::Circuit& circuit, const simulation::Settled& settled,
                 const std::vector<diagnosis::SignSource>& sources, std::vector<diagnosis::Sign> signs,
                 double patience_s);

/// "flashes quickly"; empty where nothing is said of what is seen so. Direction indicators flash 60 to 120
/// times a minute (UN Regulation No. 48, 6.5.9.1: 90 +- 30), and nobody who drives takes more or fewer for
/// right.
std::string rhythm_word(diagnosis::Shows shows, const Rhythm& rhythm);

/// The same with how often: "flashes quickly, 180 times a minute".
std::string rhythm_text(diagnosis::Shows shows, const Rhythm& rhythm);

/// Relay or flasher.
bool does_click(const model::Part& part);

}  // namespace halfsplit::practice
