#pragma once

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>
#include <span>
#include <string>
#include <vector>

#include "engine/diagnosis/next_test/effort.h"
#include "engine/diagnosis/plan/fault_table.h"
#include "engine/diagnosis/suspects/rank.h"

namespace halfsplit::test {

using diagnosis::Dictionary;
using diagnosis::Finding;

/// A dictionary of one state in which each row is written out: the first is the sound vehicle. Faults are as
/// frequent as `rates` says, all findings are voltages.
inline Dictionary dictionary_of(const std::vector<std::vector<double>>& rows,
                                std::vector<double> rates = {}) {
    Dictionary dictionary;
    dictionary.states = {"as it is"};
    for (std::size_t finding = 0; finding < rows.front().size(); ++finding)
        dictionary.findings.push_back(
            {Finding::Kind::voltage, "point " + std::to_string(finding), "body", -1});
    for (std::size_t row = 1; row < rows.size(); ++row) {
        diagnosis::PossibleFault fault;
        fault.fault.text = "fault " + std::to_string(row);
        fault.fault.part = static_cast<int>(row);
        fault.rate = rates.empty() ? 1 : rates[row - 1];
        dictionary.faults.push_back(fault);
    }
    for (const auto& row : rows)
        for (const double value : row) dictionary.values.push_back(static_cast<float>(value));
    dictionary.told.assign(rows.size(), diagnosis::Told::exactly);
    dictionary.pulses = {{std::vector(dictionary.findings.size(), diagnosis::Pulse::none), 0}};
    return dictionary;
}

/// Two lamps on the left, two on the right and a feed: a dozen faults that darken the left, a dozen the
/// right, and one that takes the feed away, and all lamps with it.
inline std::vector<std::vector<double>> a_dozen_of_each_side_and_both() {
    std::vector<std::vector<double>> rows{{12, 12, 12, 12, 12}};
    rows.insert(rows.end(), 12, {0, 0, 12, 12, 12});
    rows.insert(rows.end(), 12, {12, 12, 0, 0, 12});
    rows.push_back({0, 0, 0, 0, 0});
    return rows;
}

/// Whatever either fault takes away is gone.
inline std::vector<diagnosis::PredictedRow> less_of_both(const Dictionary& dictionary,
                                                         std::span<const diagnosis::FaultsInState> wanted) {
    std::vector<diagnosis::PredictedRow> rows;
    for (const auto& [faults, state] : wanted) {
        diagnosis::PredictedRow row;
        for (int finding = 0; finding < static_cast<int>(dictionary.findings.size()); ++finding)
            row.values.push_back(
                static_cast<float>(std::min(dictionary.value(state, faults[0] + 1, finding),
                                            dictionary.value(state, faults[1] + 1, finding))));
        rows.push_back(std::move(row));
    }
    return rows;
}

/// Readings that are what they should be, with a perfect meter.
inline diagnosis::Assumptions exact_readings() {
    diagnosis::Assumptions assumptions;
    assumptions.voltmeter = {};
    assumptions.voltmeter.smallest_full = 1000;
    assumptions.floor_v = 0;
    assumptions.supply_scatter_share = 0;
    assumptions.change_scatter_share = 0;
    assumptions.nonsense_share = 0;
    return assumptions;
}

/// Everything is within reach, and takes a minute a test.
inline diagnosis::Workshop even_workshop(const Dictionary& dictionary) {
    diagnosis::Workshop workshop;
    workshop.effort = {.sign_min = 1, .voltage_min = 1, .current_min = 1, .state_min = 0};
    workshop.test_place.assign(dictionary.findings.size(), -1);
    workshop.fault_place.assign(dictionary.faults.size(), -1);
    workshop.repair_min.assign(dictionary.faults.size(), 0);
    return workshop;
}

/// The same where only naming the fault counts, as in the tables of test sequencing: nothing is repaired on
/// suspicion.
inline diagnosis::Workshop naming_workshop(const Dictionary& dictionary) {
    diagnosis::Workshop workshop = even_workshop(dictionary);
    workshop.effort.needless_min = 1e6;
    workshop.effort.look_min = 0;
    return workshop;
}

/// Volts that are the numbers of a table's outcomes; the table's first fault is the sound vehicle.
inline Dictionary dictionary_of_table(const diagnosis::plan::FaultTable& table) {
    std::vector<std::vector<double>> rows;
    std::vector<double> rates;
    for (int fault = 0; fault < static_cast<int>(table.faults.size()); ++fault) {
        rows.emplace_back();
        for (int test = 0; test < static_cast<int>(table.tests.size()); ++test)
            rows.back().push_back(table.outcome(fault, test));
        if (fault > 0) rates.push_back(table.faults[at(fault)].prior);
    }
    return dictionary_of(rows, rates);
}

}  // namespace halfsplit::test
