#include "tests/support/small_case.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>

#include "engine/diagnosis/next_test/follow.h"
#include "engine/diagnosis/suspects/groups.h"
#include "tests/support/simulated_vehicle.h"

namespace halfsplit::test {

using diagnosis::Dictionary;
using diagnosis::Expectation;
using diagnosis::Finding;
using diagnosis::Hypotheses;
using diagnosis::Permitted;
using diagnosis::Test;

namespace {

/// A test, and what it shows with the sound vehicle and with each of the faults drawn.
struct HardTest {
    Test test;
    std::vector<int> outcome;
    std::vector<float> shown;  ///< per outcome
};

/// Nothing where it does not tell all the same things to all, or its outcomes come too close to each other.
std::optional<HardTest> hardened(const Hypotheses& hypotheses, const std::vector<int>& rows,
                                 const Test& test) {
    const Finding::Kind kind = hypotheses.dictionary().findings[at(test.finding)].kind;
    std::vector<Expectation> expected;
    std::vector<std::size_t> rising;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        expected.push_back(hypotheses.expectation(rows[i], test.state, test.finding));
        if (expected.back().says_nothing()) return std::nullopt;
        rising.push_back(i);
    }
    std::ranges::stable_sort(rising, {}, [&expected](std::size_t i) { return expected[i].mean; });
    HardTest hard{test, std::vector<int>(rows.size(), 0), {}};
    const Expectation* shown = nullptr;
    for (std::size_t k = 0; k < rising.size(); ++k) {
        const Expectation& here = expected[rising[k]];
        if (k == 0 || are_told_apart(kind, expected[rising[k - 1]], here)) {
            if (shown != nullptr && !are_told_apart(kind, *shown, here)) return std::nullopt;
            shown = &here;
            hard.shown.push_back(static_cast<float>(here.mean));
        }
        hard.outcome[rising[k]] = static_cast<int>(hard.shown.size()) - 1;
    }
    if (hard.shown.size() < 2) return std::nullopt;
    return hard;
}

double entropy_bits(const std::vector<int>& part, const std::vector<double>& weight) {
    std::map<int, double> sums;
    for (std::size_t i = 0; i < part.size(); ++i) sums[part[i]] += weight[i];
    double bits = 0;
    for (const auto& [number, sum] : sums) bits -= sum * std::log2(sum);
    return bits;
}

std::vector<int> divided(const std::vector<int>& part, const std::vector<int>& outcome) {
    std::map<std::pair<int, int>, int> numbers;
    std::vector<int> finer;
    for (std::size_t i = 0; i < part.size(); ++i)
        finer.push_back(
            numbers.try_emplace({part[i], outcome[i]}, static_cast<int>(numbers.size())).first->second);
    return finer;
}

int parts_of(const std::vector<int>& part) {
    return static_cast<int>(std::set<int>(part.begin(), part.end()).size());
}

/// Takes the test that tells the most, whatever it costs, again and again: by what it tells per minute would
/// be by the rule that is to be judged. Nothing where they do not part all rows.
std::vector<HardTest> dividing(std::vector<HardTest> candidates, const std::vector<double>& weight,
                               int most) {
    std::vector<HardTest> chosen;
    std::vector<int> part(weight.size(), 0);
    bool all_apart = false;
    while (static_cast<int>(chosen.size()) < most) {
        const double known_bits = entropy_bits(part, weight);
        double best_bits = 1e-6;
        auto best = candidates.end();
        for (auto each = candidates.begin(); each != candidates.end(); ++each) {
            const double bits = entropy_bits(divided(part, each->outcome), weight) - known_bits;
            if (bits > best_bits) {
                best_bits = bits;
                best = each;
            }
        }
        if (best == candidates.end()) {
            if (parts_of(part) == 1) break;
            std::ranges::fill(part, 0);
            continue;
        }
        part = divided(part, best->outcome);
        all_apart = all_apart || parts_of(part) == static_cast<int>(weight.size());
        chosen.push_back(*best);
        std::erase_if(candidates,
                      [&chosen](const HardTest& each) { return each.outcome == chosen.back().outcome; });
    }
    if (!all_apart) chosen.clear();
    return chosen;
}

std::vector<int> draw_rows(const Hypotheses& hypotheses, const Permitted& permitted, int faults,
                           std::mt19937_64& generator) {
    const std::vector<char> unnoticed = unnoticed_faults(hypotheses);
    diagnosis::TellingApart differ(hypotheses, permitted);
    std::vector<int> rows{0};
    rows.reserve(at(faults) + 1);
    for (int tries = 0; tries < 100 * faults && static_cast<int>(rows.size()) <= faults; ++tries) {
        const int row = draw_faults(hypotheses.dictionary(), unnoticed, 1, generator).front() + 1;
        if (std::ranges::all_of(rows, [&](int each) { return differ(each, row); })) rows.push_back(row);
    }
    return rows;
}

/// The sound vehicle counts little: it only has to be told from each of them, since nobody complains about
/// what is not noticed.
std::vector<double> weights_of(const Hypotheses& hypotheses, const std::vector<int>& rows) {
    constexpr double kSound = 0.02;
    double sum = 0;
    for (const int row : rows) sum += row == 0 ? 0 : hypotheses.prior(row);
    std::vector<double> weight;
    for (const int row : rows)
        weight.push_back(row == 0 ? kSound : (1 - kSound) * hypotheses.prior(row) / sum);
    return weight;
}

template <class Value>
int place_in(const std::vector<Value>& list, const Value& value) {
    return static_cast<int>(std::ranges::find(list, value) - list.begin());
}

/// What is left of a dictionary and its spread.
void cut(const Hypotheses& hypotheses, const diagnosis::Spread& spread, const std::vector<int>& rows,
         const std::vector<HardTest>& tests, SmallCase& small) {
    const Dictionary& whole = hypotheses.dictionary();
    std::set<int> states;
    std::set<int> findings;
    for (const HardTest& hard : tests) {
        states.insert(hard.test.state);
        findings.insert(hard.test.finding);
    }
    Dictionary& dictionary = small.dictionary;
    for (const int row : rows)
        if (row > 0) dictionary.faults.push_back(whole.faults[at(row - 1)]);
    for (const int finding : findings) dictionary.findings.push_back(whole.findings[at(finding)]);
    small.spread.findings = static_cast<int>(findings.size());
    for (const int state : states) {
        dictionary.states.push_back(whole.states[at(state)]);
        diagnosis::Pulses pulses;
        for (const int finding : findings) {
            pulses.of.push_back(whole.pulses[at(state)].of[at(finding)]);
            small.spread.sigma.push_back(static_cast<float>(spread.of(state, finding)));
        }
        dictionary.pulses.push_back(pulses);
    }
    dictionary.told.assign(states.size() * rows.size(), diagnosis::Told::exactly);
    dictionary.values.assign(states.size() * rows.size() * findings.size(),
                             std::numeric_limits<float>::quiet_NaN());
    const std::vector<int> kept_states(states.begin(), states.end());
    const std::vector<int> kept_findings(findings.begin(), findings.end());
    for (const HardTest& hard : tests)
        for (std::size_t i = 0; i < rows.size(); ++i)
            dictionary
                .values[dictionary.row_start(place_in(kept_states, hard.test.state), static_cast<int>(i)) +
                        at(place_in(kept_findings, hard.test.finding))] = hard.shown[at(hard.outcome[i])];
}

/// A large vehicle has more places than can be tried in every order; a small case goes to few of them.
void keep_places_gone_to(diagnosis::Outlook& outlook) {
    std::vector<double> access_min;
    std::map<int, int> numbers;
    const auto renumber = [&](int& place) {
        if (place < 0) return;
        const auto [known, is_new] = numbers.try_emplace(place, static_cast<int>(access_min.size()));
        if (is_new) access_min.push_back(outlook.access_min[at(place)]);
        place = known->second;
    };
    for (auto& group : outlook.groups) renumber(group.place);
    for (auto& test : outlook.tests) renumber(test.place);
    outlook.access_min = access_min;
}

void tabulate(const Dictionary& whole, const std::vector<HardTest>& tests, SmallCase& small) {
    diagnosis::Outlook& outlook = small.outlook;
    const diagnosis::Workshop& workshop = small.workshop;
    outlook.access_min = workshop.access_min;
    outlook.state_min = workshop.effort.state_min;
    outlook.needless_min = workshop.effort.needless_min;
    double sum = 0;
    for (const auto& fault : small.dictionary.faults) sum += fault.rate;
    for (std::size_t i = 0; i < small.dictionary.faults.size(); ++i)
        outlook.groups.push_back(
            {small.dictionary.faults[i].rate / sum, workshop.repair_min[i], workshop.fault_place[i]});
    for (const HardTest& hard : tests) {
        const Finding& finding = whole.findings[at(hard.test.finding)];
        const int number = place_in(small.dictionary.findings, finding);
        const diagnosis::Effort& effort = workshop.effort;
        const double minutes = finding.kind == Finding::Kind::sign      ? effort.sign_min
                               : finding.kind == Finding::Kind::voltage ? effort.voltage_min
                                                                        : effort.current_min;
        const int state = place_in(small.dictionary.states, whole.states[at(hard.test.state)]);
        outlook.tests.push_back({{state, number},
                                 minutes,
                                 workshop.test_place[at(number)],
                                 state,
                                 static_cast<int>(hard.shown.size())});
        for (std::size_t i = 1; i < hard.outcome.size(); ++i)
            outlook.cells.push_back(static_cast<std::uint8_t>(hard.outcome[i]));
    }
    keep_places_gone_to(outlook);
}

}  // namespace

std::optional<SmallCase> draw_small_case(const model::Circuit& circuit, const Hypotheses& hypotheses,
                                         const diagnosis::Spread& spread, const Permitted& permitted,
                                         int faults, int tests, std::mt19937_64& generator) {
    for (int tries = 0; tries < 100; ++tries) {
        const std::vector<int> rows = draw_rows(hypotheses, permitted, faults, generator);
        if (static_cast<int>(rows.size()) <= faults) continue;
        const std::vector<double> weight = weights_of(hypotheses, rows);
        std::vector<HardTest> candidates;
        for (const int state : permitted.states)
            for (const int finding : permitted.findings)
                if (auto hard = hardened(hypotheses, rows, {state, finding}))
                    candidates.push_back(std::move(*hard));
        const std::vector<HardTest> chosen = dividing(std::move(candidates), weight, tests);
        if (chosen.empty()) continue;
        SmallCase small;
        cut(hypotheses, spread, rows, chosen, small);
        constexpr double kNever = 1e-12;
        small.assumptions.nonsense_share = kNever;
        for (std::size_t is = 0; is < small.assumptions.called.size(); ++is)
            for (std::size_t called = 0; called < small.assumptions.called[is].size(); ++called)
                small.assumptions.called[is][called] = is == called ? 1 - 3 * kNever : kNever;
        small.workshop = workshop_for(circuit, small.dictionary);
        tabulate(hypotheses.dictionary(), chosen, small);
        return small;
    }
    return std::nullopt;
}

double minutes_as_advised(const SmallCase& small) {
    constexpr int kMostSteps = 200;
    double minutes = 0;
    for (int broken = 0; broken < static_cast<int>(small.dictionary.faults.size()); ++broken) {
        Hypotheses hypotheses(small.dictionary, small.spread, small.assumptions);
        const diagnosis::PatientVehicle vehicle{
            [&](const Test& test) { return small.dictionary.value(test.state, broken + 1, test.finding); },
            [broken](int fault) { return fault == broken; }, [](int) { return true; }};
        const diagnosis::Diagnosis run = diagnosis::follow(
            hypotheses, small.workshop, all_permitted(small.dictionary), vehicle, {{}, {}, true}, kMostSteps);
        minutes += small.outlook.groups[at(broken)].probability * run.minutes;
        if (!run.is_sound) return std::numeric_limits<double>::infinity();
    }
    return minutes;
}

}  // namespace halfsplit::test
