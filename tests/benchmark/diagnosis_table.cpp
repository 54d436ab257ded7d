#include "tests/benchmark/diagnosis_table.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <memory>
#include <set>
#include <stdexcept>

#include "engine/diagnosis/dictionary/make_dictionary.h"
#include "engine/diagnosis/next_test/consultation.h"
#include "engine/diagnosis/next_test/follow.h"
#include "engine/model/own_states.h"
#include "engine/model/read_circuit.h"
#include "tests/benchmark/stopwatch.h"
#include "tests/support/every_plan.h"
#include "tests/support/files.h"
#include "tests/support/simulated_vehicle.h"
#include "tests/support/small_case.h"

namespace halfsplit::benchmark_of {

namespace {

using diagnosis::Choice;
using diagnosis::Hypotheses;
using Clock = std::chrono::steady_clock;

/// Nobody goes on for longer; who has not found it by then never has.
constexpr int kMostSteps = 200;
constexpr int kMostStepsAtRandom = 120;

template <class Result>
auto or_throw(Result result) {
    if (!result) throw std::runtime_error(to_text(result.error().front()));
    return std::move(*result);
}

std::vector<std::string> all_circuits() {
    std::vector<std::string> names;
    const std::string ending = ".circuit.xml";
    for (const auto& entry : std::filesystem::directory_iterator(test::project_file("circuits"))) {
        const std::string name = entry.path().filename().string();
        if (name.ends_with(ending)) names.push_back(name.substr(0, name.size() - ending.size()));
    }
    std::ranges::sort(names);
    return names;
}

/// A circuit with all that diagnosing it needs.
struct Subject {
    explicit Subject(const std::string& path)
        : circuit(or_throw(model::read_circuit(path, test::read_file))),
          consultation(or_throw(diagnosis::Consultation::on(
              circuit, or_throw(diagnosis::make_dictionary(
                           circuit, {.states = model::own_state_ids(circuit, path)}))))),
          unnoticed(test::unnoticed_faults(consultation->hypotheses())) {}

    const diagnosis::Dictionary& dictionary() const { return consultation->dictionary(); }

    Hypotheses hypotheses() const {
        return consultation->new_hypotheses(timed(consultation->predict_pairs()),
                                            timed(consultation->predict_anew()));
    }

    /// The same, and its processor time is added to `settling`.
    diagnosis::Predict timed(diagnosis::Predict predict) const {
        return [this, predict = std::move(predict)](std::span<const diagnosis::FaultsInState> wanted) {
            const std::clock_t begin = std::clock();
            auto rows = predict(wanted);
            settling += std::clock() - begin;
            return rows;
        };
    }

    model::Circuit circuit;
    std::unique_ptr<diagnosis::Consultation> consultation;
    std::vector<char> unnoticed;
    mutable std::clock_t settling = 0;  ///< pairs and what is settled anew
};

struct Manner {
    const char* name;
    int faults = 1;
    double nonsense_share = 0;
    bool random_order = false;
};

struct Totals {
    int vehicles = 0;
    int right = 0;  ///< all that was repaired was broken, and the vehicle is in order
    double tests = 0;
    double minutes = 0;
    double needless = 0;
    Waits waits;
};

/// Test points in random order, until the readings are enough for the same decision to repair.
diagnosis::Deviate random_order(const Subject& subject, std::uint64_t seed) {
    return [&subject, generator = std::mt19937_64(seed)](Choice choice, const diagnosis::Evidence& evidence,
                                                         const diagnosis::Bench& bench) mutable {
        if (choice.kind == Choice::Kind::repair) return choice;
        std::set<std::pair<int, int>> taken;
        for (const auto& each : evidence.readings) taken.insert({each.state, each.finding});
        const auto& permitted = subject.consultation->permitted();
        for (int tries = 0; tries < 1000; ++tries) {
            choice.test = {permitted.states[generator() % permitted.states.size()],
                           permitted.findings[generator() % permitted.findings.size()]};
            if (!taken.contains({choice.test.state, choice.test.finding})) break;
        }
        choice.minutes =
            diagnosis::test_minutes(subject.consultation->workshop(), bench,
                                    subject.dictionary().findings[at(choice.test.finding)].kind, choice.test);
        return choice;
    };
}

void report_wrong(const Subject& subject, const std::vector<int>& broken, const diagnosis::Diagnosis& run) {
    std::printf("    wrong:");
    for (const int fault : broken)
        std::printf(" %s", subject.dictionary().faults[at(fault)].fault.text.c_str());
    for (const auto& step : run.steps) {
        if (step.choice.kind == Choice::Kind::test) {
            const auto& finding = subject.dictionary().findings[at(step.choice.test.finding)];
            std::printf(" | %s %s-%s %.3f", subject.dictionary().states[at(step.choice.test.state)].c_str(),
                        finding.at.c_str(), finding.against.c_str(), step.value);
            continue;
        }
        const int first = step.choice.group.front();
        std::printf(" | repair of %zu at %.3f:", step.choice.group.size(), step.choice.probability);
        if (first == 0)
            std::printf(" nothing");
        else if (first < subject.dictionary().rows())
            std::printf(" %s", subject.dictionary().faults[at(first - 1)].fault.text.c_str());
        else
            std::printf(" a pair");
    }
    std::printf("\n");
}

struct Drawn {
    std::vector<int> broken;
    std::uint64_t seed = 0;  ///< of the vehicle
    diagnosis::Evidence evidence;
};

/// Something that can be seen to be not as it should be, whichever comes first from a random start on. Nor
/// was it so before: nobody complains that a lamp is dim while the starter turns if it always was, in this
/// vehicle.
std::optional<diagnosis::Reading> complaint_about(const Subject& subject, const std::vector<int>& broken,
                                                  std::uint64_t seed, std::mt19937_64& generator) {
    test::SimulatedVehicle vehicle(subject.circuit, subject.dictionary(), broken, subject.unnoticed,
                                   {true, 0}, seed);
    const diagnosis::PatientVehicle patient = vehicle.patient();
    test::SimulatedVehicle sound(subject.circuit, subject.dictionary(), {}, subject.unnoticed, {true, 0},
                                 seed);
    const diagnosis::PatientVehicle before = sound.patient();
    const auto& permitted = subject.consultation->permitted();
    const std::size_t tests = permitted.states.size() * permitted.findings.size();
    const std::size_t start = generator() % tests;
    for (std::size_t i = 0; i < tests; ++i) {
        const std::size_t number = (start + i) % tests;
        const diagnosis::Test test{permitted.states[number / permitted.findings.size()],
                                   permitted.findings[number % permitted.findings.size()]};
        if (subject.dictionary().findings[at(test.finding)].kind != diagnosis::Finding::Kind::sign) continue;
        const double nominal = subject.dictionary().value(test.state, 0, test.finding);
        const auto shown = patient.read(test);
        if (shown && std::isfinite(nominal) && *shown != nominal && shown != before.read(test))
            return diagnosis::Reading{test.state, test.finding, *shown, true};
    }
    return std::nullopt;
}

/// As well: what nobody sees. A customer complains about what is seen, and is content when it is right again.
void take_unseen_as_unnoticed(Subject& subject) {
    const diagnosis::Dictionary& dictionary = subject.dictionary();
    for (int row = 1; row < dictionary.rows(); ++row) {
        bool is_seen = false;
        for (const int state : subject.consultation->permitted().states)
            for (const int finding : subject.consultation->permitted().findings) {
                if (dictionary.findings[at(finding)].kind != diagnosis::Finding::Kind::sign) continue;
                const double sound = dictionary.value(state, 0, finding);
                const double broken = dictionary.value(state, row, finding);
                is_seen = is_seen || (std::isfinite(sound) && std::isfinite(broken) && sound != broken);
            }
        if (!is_seen) subject.unnoticed[at(row - 1)] = 1;
    }
}

Drawn draw(const Subject& subject, const Manner& manner, bool with_complaint, std::mt19937_64& generator) {
    while (true) {
        Drawn drawn{test::draw_faults(subject.dictionary(), subject.unnoticed, manner.faults, generator),
                    generator(),
                    {}};
        drawn.evidence.complaint = true;
        if (!with_complaint) return drawn;
        if (const auto complaint = complaint_about(subject, drawn.broken, drawn.seed, generator)) {
            drawn.evidence.readings.push_back(*complaint);
            return drawn;
        }
    }
}

Totals totals_of(const Subject& subject, const Manner& manner, const Draws& draws, bool tells_wrong) {
    Totals totals;
    std::mt19937_64 generator(draws.seed);
    // Random order takes ten times as long, and is far off anyway.
    const int count = manner.random_order ? std::max(draws.count / 4, 1) : draws.count;
    for (int i = 0; i < count; ++i) {
        const Drawn drawn = draw(subject, manner, draws.with_complaint, generator);
        test::SimulatedVehicle vehicle(subject.circuit, subject.dictionary(), drawn.broken, subject.unnoticed,
                                       {true, manner.nonsense_share}, drawn.seed);
        diagnosis::PatientVehicle patient = vehicle.patient();
        std::mt19937_64 complains(drawn.seed);
        if (draws.with_complaint)
            patient.complain = [&] {
                const auto left = complaint_about(subject, vehicle.broken(), drawn.seed, complains);
                return left ? std::vector{*left} : std::vector<diagnosis::Reading>();
            };
        Hypotheses hypotheses = subject.hypotheses();
        Stopwatch watch(subject.settling);
        const diagnosis::Diagnosis run = diagnosis::follow(
            hypotheses, subject.consultation->workshop(), subject.consultation->permitted(),
            watch.around(std::move(patient)), drawn.evidence,
            manner.random_order ? kMostStepsAtRandom : kMostSteps,
            watch.around(manner.random_order ? random_order(subject, generator()) : diagnosis::Deviate{}));
        totals.waits.add(watch.waits());
        ++totals.vehicles;
        const bool right = run.is_sound && run.needless_repairs == 0;
        totals.right += right ? 1 : 0;
        totals.tests += run.tests;
        totals.minutes += run.minutes;
        totals.needless += run.needless_repairs;
        if (!right && tells_wrong) report_wrong(subject, drawn.broken, run);
        std::fprintf(stderr, "\r%s: %d of %d, %d right ", manner.name, totals.vehicles, count, totals.right);
    }
    std::fprintf(stderr, "\n");
    return totals;
}

void print(const char* manner, Totals totals) {
    const double vehicles = totals.vehicles;
    std::printf(
        "  %-22s %4d vehicles: %5.1f %% right, %5.1f tests, %6.1f min, %.3f needless repairs, "
        "slowest step %.0f ms (%.0f with what was settled for it)\n",
        manner, totals.vehicles, 100 * totals.right / vehicles, totals.tests / vehicles,
        totals.minutes / vehicles, totals.needless / vehicles, 1000 * totals.waits.slowest_s,
        1000 * totals.waits.slowest_settling_s);
    std::vector<double>& waits_s = totals.waits.on_clock_s;
    std::ranges::sort(waits_s);
    if (!waits_s.empty())
        std::printf(
            "    on the clock: half of %zu steps within %.0f ms, 99 %% within %.0f, all within %.0f; thought "
            "ahead %.0f ms a test\n",
            waits_s.size(), 1000 * waits_s[waits_s.size() / 2], 1000 * waits_s[waits_s.size() * 99 / 100],
            1000 * waits_s.back(), 1000 * totals.waits.ahead_s / std::max(totals.tests, 1.0));
    std::fflush(stdout);
}

/// The minutes of following the advice through, as a share of the least that any strategy takes: a dozen
/// faults of the circuit at a time, a dozen tests, no wrong readings.
void print_small_cases(const Subject& subject, std::uint64_t seed) {
    constexpr int kCases = 20;
    constexpr int kFaults = 12;
    constexpr int kTests = 12;
    const auto begin = Clock::now();
    const auto spread =
        or_throw(diagnosis::spread_of(subject.circuit, subject.dictionary(), diagnosis::Assumptions{}));
    std::mt19937_64 generator(seed);
    int cases = 0;
    double sum = 0;
    double worst = 0;
    double minutes = 0;
    double least_minutes = 0;
    double needed_minutes = 0;  // no strategy does without repairing what is broken
    while (cases < kCases) {
        const auto small =
            test::draw_small_case(subject.circuit, subject.consultation->hypotheses(), spread,
                                  subject.consultation->permitted(), kFaults, kTests, generator);
        if (!small) break;
        const double least = test::EveryPlan(small->outlook).least_minutes();
        const double advised = test::minutes_as_advised(*small);
        ++cases;
        minutes += advised;
        least_minutes += least;
        for (const auto& group : small->outlook.groups)
            needed_minutes += group.probability * group.repair_min;
        sum += advised / least;
        worst = std::max(worst, advised / least);
    }
    if (cases == 0) return;
    std::printf(
        "  against the optimum    %4d cases of %d faults and %d tests: %.2f min, at least %.2f, %.2f of them "
        "the repair that is needed;\n    ratio %.4f on average, %.4f at worst, without that repair %.4f "
        "(%.0f s)\n",
        cases, kFaults, kTests, minutes / cases, least_minutes / cases, needed_minutes / cases, sum / cases,
        worst, (minutes - needed_minutes) / (least_minutes - needed_minutes), seconds_since(begin));
    std::fflush(stdout);
}

std::vector<Manner> manners_of(const Draws& draws) {
    std::vector<Manner> manners{
        {"single faults", 1}, {"pairs", 2}, {"one in ten nonsense", 1, 0.1}, {"random order", 1, 0, true}};
    if (draws.manner.empty()) return manners;
    std::erase_if(manners, [&draws](const Manner& each) { return draws.manner != each.name; });
    if (manners.empty()) throw std::invalid_argument("no manner is called '" + draws.manner + "'");
    return manners;
}

}  // namespace

void print_diagnoses(std::vector<std::string> circuits, const Draws& draws) {
    const auto manners = manners_of(draws);
    const bool all = circuits.empty();
    if (all) circuits = all_circuits();
    for (const std::string& name : circuits) {
        const auto begin = Clock::now();
        Subject subject(test::project_file("circuits/" + name + ".circuit.xml"));
        if (draws.with_complaint) take_unseen_as_unnoticed(subject);
        std::printf("%s: %zu faults (%td not to be noticed), %zu states, %zu findings; dictionary %.1f s\n",
                    name.c_str(), subject.dictionary().faults.size(),
                    std::ranges::count(subject.unnoticed, 1), subject.dictionary().states.size(),
                    subject.dictionary().findings.size(), seconds_since(begin));
        std::fflush(stdout);
        print_small_cases(subject, draws.seed);
        for (const Manner& manner : manners)
            print(manner.name, totals_of(subject, manner, draws, !all && !manner.random_order));
    }
}

}  // namespace halfsplit::benchmark_of
