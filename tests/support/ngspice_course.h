#pragma once

#include <span>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "tests/support/ngspice.h"
#include "tests/support/storing_network.h"

namespace halfsplit::test {

/// How ngspice is to step.
struct NgspiceSteps {
    double until_s = 0;
    double longest_s = 0;
    /// Empty: ngspice's own tolerances and method.
    std::string options;
};

/// Tolerances far below ours, and second-order backward differences, which do not ring after a switch.
inline constexpr const char* kTightOptions = "reltol=1e-6 vntol=1e-7 abstol=1e-9 trtol=1 method=gear";

/// The network as a deck for an analysis in time from what is stored at its start. A coil is its resistance
/// in series with inductance and losses side by side; a capacitor its leakage beside series resistance and
/// capacitance; a rotor a capacitance beside its load current, as while it turns forwards; a filament's
/// resistance share the voltage of 1 F at node "h<branch>" charged by the equation of engine/model/store.h.
/// What is toggled is a switch. All else as in ngspice_deck for times.
std::vector<std::string> ngspice_course_deck(const StoringNetwork& network, const std::string& options);

/// The course of some vectors, read at any time by the parabola through the three points around it.
class Waveforms {
  public:
    Waveforms(std::vector<double> time_s, std::vector<std::vector<double>> values)
        : time_s_(std::move(time_s)), values_(std::move(values)) {}
    double at(std::size_t vector, double time_s) const;
    std::size_t points() const { return time_s_.size(); }

  private:
    std::vector<double> time_s_;
    std::vector<std::vector<double>> values_;
};

/// Runs the deck that is loaded.
Ngspice::Done ngspice_transient(Ngspice& ngspice, const NgspiceSteps& steps);
/// Reads vectors after that; an error if ngspice gave up before the end.
tl::expected<Waveforms, std::string> ngspice_waveforms(const Ngspice& ngspice, const NgspiceSteps& steps,
                                                       std::span<const std::string> vectors);

/// Loads, runs, reads the potentials of all nodes.
tl::expected<Waveforms, std::string> ngspice_course(const StoringNetwork& network, const NgspiceSteps& steps);

}  // namespace halfsplit::test
