#pragma once

#include <array>

namespace halfsplit::diagnosis {

/// How far a meter may be off: +-(share of what it shows + so many steps of its last digit), in ranges of
/// 6 000 steps.
struct Meter {
    double share = 0;
    double digits = 0;
    double finest_step = 0;    ///< of its smallest range, in V or A
    double smallest_full = 0;  ///< where its smallest range ends; each next is ten times as large
};

/// What is taken for granted when readings are weighed. Where no source stands, a figure is from memory.
struct Assumptions {
    /// The workshop multimeter and clamp of engine/instruments, whose accuracies are common practice.
    Meter voltmeter{0.005, 2, 1e-4, 0.5999};
    Meter clamp{0.02, 3, 1e-2, 59.99};

    /// What pick-up, probes on dirty contacts and zero offsets leave, standard deviation.
    double floor_v = 0.002;
    double floor_a = 0.02;
    /// The least scatter of a sound vehicle's current, as a share of it, where limits say less.
    double current_scatter_share = 0.03;
    /// How charged a battery is differs more from car to car than its tolerance says: a rested one has 12.2
    /// to 12.8 V without anything being wrong (common practice). Two standard deviations of every voltage.
    double supply_scatter_share = 0.012;
    /// The least scatter of a voltage that pulses: its limits are those of one moment, and the supply that it
    /// comes to scatters by this.
    double pulse_scatter_share = 0.02;
    /// A fault's own numbers differ from those assumed for it (a corroded contact has 1 or 3 ohm), so what
    /// it changes against the sound vehicle scatters by this share of the change, or of what is left where
    /// that is less: what is dead is dead.
    double change_scatter_share = 0.05;
    /// Where control units might have done differently, values scatter this many times as much, and by this
    /// share of the change more.
    double as_it_stands_factor = 2;
    double as_it_stands_share = 0.1;

    /// One reading in so many is nonsense: wrong point, wrong range, no contact, misread.
    double nonsense_share = 0.08;
    double nonsense_share_as_it_stands = 0.15;
    /// So many complaints that the workshop has seen too are mistakes, each about one of all the signs there
    /// are: who is mistaken about something is hardly ever mistaken about just this.
    double mistaken_complaint = 0.01;

    /// How a sign that is really the row's is called the column's, in the order of Sign. A fuse's window
    /// misleads less than a lamp that is a little dim.
    std::array<std::array<double, 4>, 4> called{{{0.965, 0.025, 0.005, 0.005},
                                                 {0.025, 0.93, 0.04, 0.005},
                                                 {0.005, 0.03, 0.96, 0.005},
                                                 {0.005, 0.0025, 0.0025, 0.99}}};

    /// Before any reading: nothing is wrong, where nobody complained; two things are, against one.
    double sound_share = 0.05;
    double pair_share = 0.1;
    /// Pairs are looked into where so many contradictions of the best single fault would be nonsense less
    /// often than this.
    double surprise = 0.4;
};

}  // namespace halfsplit::diagnosis
