#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/finding.h"
#include "engine/diagnosis/fault_universe.h"

namespace halfsplit::diagnosis {

/// How a prediction was come by.
enum class Told : unsigned char {
    exactly,       ///< the fault was there from the start of the state, and everything followed from it
    as_it_stands,  ///< the fault came while everything stood as it stands in the sound vehicle, and what
                   ///< control units and mechanisms might have done differently is not in it
    not_at_all     ///< the circuit does not come to rest with it; values are NaN
};

/// What goes to and fro by itself in the sound vehicle, such as the voltage of a lamp that blinks, has no one
/// value. What a dictionary has for it then:
enum class Pulse : unsigned char {
    none,
    slow,  ///< what it is, by size, most of the time that it is up: that is what one sees it jump to
    fast   ///< its mean, which a voltmeter settles on
};

/// All that pulses in one state.
struct Pulses {
    std::vector<Pulse> of;  ///< one per finding
    double watch_s = 0;  ///< how long one has to look for that: some rounds of the slowest; 0 where none does

    bool any() const { return watch_s > 0; }
};

/// For every fault of a circuit's universe, state and finding: what would be found. Row 0 is the sound
/// vehicle, row i + 1 has faults[i]. Values are kept in single precision: 1 microvolt at 12 V, a hundredth of
/// what the best voltmeter in use resolves.
struct Dictionary {
    std::vector<PossibleFault> faults;
    std::vector<std::string> states;  ///< ids
    std::vector<Finding> findings;    ///< the same in every state
    std::vector<float> values;        ///< states.size() tables of rows() rows of findings.size()
    std::vector<Told> told;           ///< states.size() lists of rows()
    std::vector<Pulses> pulses;       ///< one per state, of the sound vehicle

    int rows() const { return static_cast<int>(faults.size()) + 1; }
    std::size_t row_start(int state, int row) const {
        return (at(state) * at(rows()) + at(row)) * findings.size();
    }
    double value(int state, int row, int finding) const {
        return static_cast<double>(values[row_start(state, row) + at(finding)]);
    }
    bool does_pulse(int state, int finding) const { return pulses[at(state)].of[at(finding)] != Pulse::none; }
    Told told_of(int state, int row) const { return told[at(state) * at(rows()) + at(row)]; }
    /// Whether any fault was put into what stands in this state, see Told.
    bool puts_into_what_stands(int state) const;
    /// Their index, or -1 where the dictionary does not hold it.
    int index_of_state(std::string_view id) const;
    int index_of_finding(const Finding& finding) const;
};

/// All findings the circuit offers: voltages of all its points against the body, the drop along each wire and
/// across each fuse and switching contact, the current in each wire, the sign of each part that gives one.
std::vector<Finding> findings_of(const model::Circuit& circuit);

}  // namespace halfsplit::diagnosis
