#pragma once

#include <span>
#include <vector>

#include "engine/diagnosis/dictionary/dictionary.h"
#include "engine/diagnosis/dictionary/sign.h"

namespace halfsplit::diagnosis {

/// Direct-voltage input resistance of a digital multimeter (Kuphaldt, Lessons in Electric Circuits vol. I ch.
/// 8), as engine/instruments/voltmeter.cpp has it.
inline constexpr double kMeterOhm = 10e6;

/// Where a circuit's findings are in one network of it.
struct FindingPlaces {
    struct Voltage {
        int finding = 0;
        int at = network::kBody;
        int against = network::kBody;
    };
    struct Current {
        int finding = 0;
        int branch = 0;
    };
    struct Seen {
        int finding = 0;
        SignSource source;
        std::vector<int> branches;
    };
    std::vector<Voltage> voltages;
    std::vector<Current> currents;
    std::vector<Seen> signs;
};

/// Throws std::logic_error for a finding that is not of this circuit.
FindingPlaces places_of(const model::Circuit& circuit, const std::vector<Finding>& findings,
                        const network::Network& network);

/// Puts currents and signs into a row of the dictionary.
void read_currents_and_signs(const FindingPlaces& places, const network::Network& network,
                             const std::vector<int>& conditions, const network::Solution& solution,
                             std::span<float> row);

/// The branches as they are in these conditions, followed by a voltmeter that is not connected yet for each
/// voltage.
std::vector<network::Branch> branches_with_meters(const FindingPlaces& places,
                                                  const network::Network& network,
                                                  const std::vector<int>& conditions);

/// Fills a row by connecting a voltmeter to one pair of points after the other and solving each time, in the
/// conditions given. False where there is no solution.
bool read_with_meters(const FindingPlaces& places, const network::Network& network,
                      const std::vector<int>& conditions, std::span<float> row);

}  // namespace halfsplit::diagnosis
