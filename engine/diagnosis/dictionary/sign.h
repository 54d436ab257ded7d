#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "engine/diagnosis/dictionary/finding.h"
#include "engine/network/network.h"
#include "engine/network/nodal/solver.h"

namespace halfsplit::diagnosis {

/// What a sign is seen by.
enum class Shows {
    filament,  ///< light, by the power in a filament
    string,    ///< light, by the current in light-emitting diodes
    rotor,     ///< motion, by the speed of a motor
    sound,     ///< by the power in a horn or buzzer
    heat,      ///< by the power in a heating element
    plunger,   ///< by the condition of a solenoid
    fuse,      ///< by the condition of a fuse, breaker or link
    lock,      ///< by where a lock's actuator stands
    travel     ///< by where it stands, of anything else that goes from one end to the other
};

/// Whether it is seen by where something stands, and not by what it does.
bool is_position(Shows shows);

/// Something that anybody sees, hears or feels at a part.
struct SignSource {
    /// The part's id; "E4.filament-a" where a part shows more than one; "M8.position" of where it stands
    std::string name;
    int part = 0;
    Shows shows = Shows::filament;
    std::string branch;  ///< the name its branches have in a network; "" where a condition shows it
    double rated = 0;    ///< W, A, or V of back-EMF, of the part as its maker built it
};

/// All of them, in the author's order.
std::vector<SignSource> sign_sources(const model::Circuit& circuit);

/// The one of this name; nullptr where there is none.
const SignSource* find_sign_source(const std::vector<SignSource>& sources, std::string_view name);

/// Whether it is in the class of fuses, breakers and links.
bool is_fuse(const model::Part& part);

/// What is seen where the network has come to these conditions. `branches` are those of the source's name.
///
/// Where the classes lie is from memory: what somebody who knows the vehicle would call dead, weak and good.
/// A filament's light goes with the 2.2th power of its watts (re-rating exponents 3.4 of the flux and 1.55 of
/// the power, Fink & Beaty, Standard Handbook for Electrical Engineers, 11th ed. p. 22-8); the eye takes half
/// of the light for clearly dim and a hundredth for none. A motor is slow below three quarters of its speed.
/// Heat is missed below three quarters of the power. A horn is weak below 0.6 of its power (9.3 V of 12 V)
/// and does not start below a quarter (6 V).
Sign sign_of(const SignSource& source, std::span<const int> branches, const network::Network& network,
             const std::vector<int>& conditions, const network::Solution& solution);

/// The same for positions, of what stands at this share of its travel.
Sign sign_at(double travel_share);

/// What sign_of() says as a share of what it gives at its rating: of light, speed, sound or heat. Not for
/// fuses, plungers and positions.
double shown_share(const SignSource& source, std::span<const int> branches, const network::Network& network,
                   const std::vector<int>& conditions, const network::Solution& solution);

}  // namespace halfsplit::diagnosis
