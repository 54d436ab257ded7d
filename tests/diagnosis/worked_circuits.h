#pragma once

#include "tests/support/circuit_text.h"

// Circuits worked by hand in more than one test.
namespace halfsplit::test {

/// Two resistors of 100 and 200 ohm with 5 % and 10 % on 12 V with 1 %.
inline model::Circuit divider(std::string_view states = "") {
    return circuit_of(
        R"(<battery id="G1" open-circuit-v="12" internal-ohm="0.0001" tolerance-percent="1" plug="none"/>
           <resistor id="R1" ohm="100" tolerance-percent="5" plug="none"/>
           <resistor id="R2" ohm="200" tolerance-percent="10" plug="none"/>
           <ground-point id="E1"/>)",
        R"(<wire id="W1" from="G1.+" to="R1.1" ohm="0.0001" tolerance-percent="0"/>
           <wire id="W2" from="R1.2" to="R2.1" ohm="0.0001" tolerance-percent="0"/>
           <wire id="W3" from="R2.2" to="E1" ohm="0.0001" tolerance-percent="0"/>
           <wire id="W4" from="G1.-" to="E1" ohm="0.0001" tolerance-percent="0"/>)",
        "", states);
}

/// 48 ohm before a coil of 85 ohm leave it about 7.66 V of 12 V; 7.3 V pull it in.
inline model::Circuit relay_near_pull_in(std::string_view states = "") {
    return circuit_of(
        R"(<battery id="G1" open-circuit-v="12" internal-ohm="0.01" tolerance-percent="0" plug="none"/>
           <resistor id="R1" ohm="48" tolerance-percent="5"/>
           <relay id="K1" coil-ohm="85" pull-in-v="7.3" drop-out-v="2"/>
           <ground-point id="E1"/>)",
        R"(<wire id="W1" from="G1.+" to="R1.1" area-mm2="1" length-m="1"/>
           <wire id="W2" from="R1.2" to="K1.86" area-mm2="1" length-m="1"/>
           <wire id="W3" from="K1.85" to="E1" area-mm2="1" length-m="1"/>
           <wire id="W4" from="G1.-" to="E1" area-mm2="16" length-m="0.3"/>)",
        "", states);
}

}  // namespace halfsplit::test
