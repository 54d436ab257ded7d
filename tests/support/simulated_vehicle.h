#pragma once

#include <cstdint>
#include <map>
#include <random>
#include <vector>

#include "engine/diagnosis/dictionary/dictionary.h"
#include "engine/diagnosis/next_test/follow.h"

namespace halfsplit::test {

/// What may go wrong with readings of a simulated vehicle.
struct Sloppiness {
    bool scatters = true;       ///< its parts are not nominal, and meters err within their limits
    double nonsense_share = 0;  ///< of readings have nothing to do with the vehicle
};

/// A vehicle like a circuit, with its own values drawn from the tolerances, and faults that were there from
/// the start. It is settled anew for everything that is read from it: nothing is taken from the dictionary
/// but the list of what can be asked. The same seed makes the same vehicle and the same errors.
class SimulatedVehicle {
  public:
    /// `broken` are indices into the dictionary's faults; mending all that are not in `unnoticed` makes it
    /// sound. Keeps references.
    SimulatedVehicle(const model::Circuit& circuit, const diagnosis::Dictionary& dictionary,
                     std::vector<int> broken, const std::vector<char>& unnoticed,
                     const Sloppiness& sloppiness, std::uint64_t seed);

    /// Borrows this.
    diagnosis::PatientVehicle patient();
    /// What has not been mended yet.
    const std::vector<int>& broken() const { return broken_; }

  private:
    std::optional<double> read(const diagnosis::Test& test);
    const std::vector<float>& row(int state);
    double nonsense(const diagnosis::Finding& finding);
    double with_error(const diagnosis::Finding& finding, double value);
    double even();  ///< from 0 to 1

    model::Circuit circuit_;
    const diagnosis::Dictionary& dictionary_;
    std::vector<int> broken_;
    const std::vector<char>& unnoticed_;
    Sloppiness sloppiness_;
    std::mt19937_64 generator_;
    std::map<int, std::vector<float>> rows_;  ///< by state; empty where it does not come to rest
};

/// The circuit as another vehicle has it.
model::Circuit scattered_circuit(const model::Circuit& circuit, std::mt19937_64& generator);

/// Per fault: no reading tells it from a sound vehicle.
std::vector<char> unnoticed_faults(const diagnosis::Hypotheses& hypotheses);

/// `count` faults by their rates, of those that are noticed.
std::vector<int> draw_faults(const diagnosis::Dictionary& dictionary, const std::vector<char>& unnoticed,
                             int count, std::mt19937_64& generator);

}  // namespace halfsplit::test
