#pragma once

#include "tests/tracing/bench.h"

namespace halfsplit::test {

/// Two lamps behind one fuse and two switches, on one ground splice: the circuit in which a lost ground makes
/// one lamp's current go back through the other (common practice: what a trailer's or a rear lamp's bad
/// ground does). A third lamp on the second lamp's feed has a ground of its own.
///
///   G1.+ -W1- F1 -W2- J1 -W3- S1 -W5- H1 -W7- J9 -W9- E2
///                      J1 -W4- S2 -W6- H2 -W8- J9
///                                      H2.1 -W10- H3 -W11- E3
inline Bench two_lamps() {
    Bench bench;
    bench.battery();
    bench.fuse("F1");
    bench.part("J1", "X");
    bench.on_off_switch("S1");
    bench.on_off_switch("S2");
    bench.lamp("H1");
    bench.lamp("H2");
    bench.lamp("H3");
    bench.part("J9", "X");
    bench.ground_point("E2");
    bench.ground_point("E3");
    bench.wire("W1", "G1.+", "F1.1", "RD", 6);
    bench.wire("W2", "F1.2", "J1", "RDYE", 2.5);
    bench.wire("W3", "J1", "S1.1", "RDYE", 1.5);
    bench.wire("W4", "J1", "S2.1", "RDYE", 1.5);
    bench.wire("W5", "S1.2", "H1.1", "GN", 1);
    bench.wire("W6", "S2.2", "H2.1", "BU", 1);
    bench.wire("W7", "H1.2", "J9", "BN", 1);
    bench.wire("W8", "H2.2", "J9", "BN", 1);
    bench.wire("W9", "J9", "E2", "BN", 1.5);
    bench.wire("W10", "H2.1", "H3.1", "BU", 1);
    bench.wire("W11", "H3.2", "E3", "BN", 1);
    return bench;
}

/// The same with W9 torn and only S1 closed: by Ohm's and Kirchhoff's laws the one current there is goes
/// through H1, back through H2, and through H3 to ground. 12 V over three lamps alike in series: 4 V each.
inline Bench lost_ground() {
    Bench bench = two_lamps();
    bench.open("W9");
    bench.put("S1", 1);
    for (const char* forward : {"W1", "F1.wire", "W2", "W3", "S1.1-2", "W5", "H1.filament", "W7", "W10",
                                "H3.filament", "W11", "E3.joint"})
        bench.carries(forward, 0.9);
    for (const char* backward : {"W8", "H2.filament", "W0", "E1.joint", "G1.cells"})
        bench.carries(backward, -0.9);
    for (const char* fed : {"G1.+", "F1.1", "F1.2", "J1", "S1.1", "S1.2", "S2.1", "H1.1"})
        bench.reads(fed, 12);
    for (const char* first : {"H1.2", "J9", "H2.2"}) bench.reads(first, 8);
    for (const char* second : {"H2.1", "S2.2", "H3.1"}) bench.reads(second, 4);
    return bench;
}

}  // namespace halfsplit::test
