#include "engine/practice/verdict/verdict.h"

#include <catch2/catch.hpp>

#include "engine/diagnosis/dictionary/make_dictionary.h"
#include "engine/diagnosis/suspects/rank.h"
#include "engine/practice/fairness/fairness.h"
#include "engine/practice/verdict/debrief.h"
#include "tests/practice/scenario_texts.h"

using namespace halfsplit;
using namespace halfsplit::practice;
using test::kBothSilent;
using test::scenario_text;
using test::silent_horn;

namespace {

Session after(const ScenarioWithCircuit& read, const std::vector<std::string>& script) {
    auto session = Session::begin(read.scenario, read.circuit);
    REQUIRE(session);
    for (const std::string& line : script) {
        const auto entry = session->act(read_action(line).value());
        if (!entry) FAIL(line << ": " << entry.error());
    }
    return std::move(*session);
}

const diagnosis::Dictionary& horn_dictionary() {
    static const diagnosis::Dictionary dictionary = diagnosis::make_dictionary(silent_horn().circuit).value();
    return dictionary;
}

Expertise expertise_on(const ScenarioWithCircuit& read) {
    auto expertise = expertise_for(read.scenario, read.circuit, horn_dictionary());
    if (!expertise) FAIL(to_text(expertise.error().front()));
    return std::move(*expertise);
}

}  // namespace

TEST_CASE("A vehicle that was repaired and put together is right") {
    const Session session = after(silent_horn(), {"mend X3.1", "done"});
    const Verdict verdict = verdict_of(session, {});
    CHECK(verdict.is_right);
    CHECK(verdict.for_nothing.empty());
    CHECK(verdict.still_wrong.empty());
}

TEST_CASE("The wrong part is for nothing, and the fault is named") {
    const Session session = after(silent_horn(), {"replace K2", "mend W203", "done"});
    const Verdict verdict = verdict_of(session, {});
    CHECK_FALSE(verdict.is_right);
    CHECK(verdict.still_wrong == std::vector<std::string>{"open:X3.1"});
    CHECK(verdict.for_nothing == std::vector<std::string>{"K2", "W203"});
}

TEST_CASE("What was left apart, or made worse, is not in order") {
    CHECK(verdict_of(after(silent_horn(), {"mend X3.1", "unplug X3", "done"}), {}).left_apart ==
          std::vector<std::string>{"X3 is unplugged"});
    CHECK_FALSE(verdict_of(after(silent_horn(), {"mend X3.1", "pull F7", "done"}), {}).is_right);
    CHECK_FALSE(verdict_of(after(silent_horn(), {"mend X3.1", "bridge X3.1a X3.1b", "done"}), {}).is_right);
    CHECK(verdict_of(after(silent_horn(), {"mend X3.1", "fit F7 30", "done"}), {}).still_wrong ==
          std::vector<std::string>{"wrong-rating:F7=30"});
}

TEST_CASE("Where nothing is wrong, to replace nothing is right") {
    const auto read = test::scenario_of(scenario_text("", ""));
    CHECK(verdict_of(after(read, {"look", "done"}), {}).is_right);
    const Verdict verdict = verdict_of(after(read, {"replace P3", "done"}), {});
    CHECK_FALSE(verdict.is_right);
    CHECK(verdict.is_repaired);
}

TEST_CASE("Until it is handed back nothing is right") {
    CHECK_FALSE(verdict_of(after(silent_horn(), {"mend X3.1"}), {}).is_right);
}

TEST_CASE("A scenario is fair whose symptoms come from its fault") {
    const Fairness fair = fairness_of(silent_horn().scenario, expertise_on(silent_horn()));
    CHECK(fair.way.finds_it);
    CHECK(fair.suspects_at_first > kLeastSuspects);
    CHECK(fair.belief_at_first < kMostBelief);
    // What is missing is a contact; the best strategy gets there with a few tests and mends it.
    CHECK(fair.way.diagnosis.tests < 12);
    CHECK(fair.way.minutes() > 15);
}

TEST_CASE(
    "A scenario whose fault does not lead to its symptom, or whose symptom is no symptom, is not fair") {
    const auto wrong = test::scenario_of(scenario_text("<fault spec=\"open:P3\"/>", kBothSilent));
    const Fairness fairness = fairness_of(wrong.scenario, expertise_on(wrong));
    REQUIRE_FALSE(fairness.problems.empty());
    CHECK(fairness.problems.front().message.find("do not lead to this") != std::string::npos);
    const auto normal = test::scenario_of(scenario_text(
        "<fault spec=\"open:P3\"/>", "<symptom state=\"key-off-pressed\" at=\"P4\" shows=\"silent\"/>"));
    const Fairness second = fairness_of(normal.scenario, expertise_on(normal));
    REQUIRE_FALSE(second.problems.empty());
    CHECK(second.problems.front().message.find("sound vehicle") != std::string::npos);
}

TEST_CASE("A hidden fault of another value than usual takes the usual one's place") {
    const auto read =
        test::scenario_of(scenario_text("<fault spec=\"high-resistance:X3.1=30\"/>", kBothSilent));
    const Expertise expertise = expertise_on(read);
    const int fault = expertise.hidden.front();
    CHECK(expertise.consultation->dictionary().faults[static_cast<std::size_t>(fault)].fault.text ==
          "high-resistance:X3.1=30");
    CHECK(best_way(expertise).finds_it);
}

// Which test tells what, by hand: the horns are silent by the complaint, so to look at them again tells
// nothing; the voltage before and behind the contact leaves the contact and its like.
TEST_CASE("Hindsight knows which step told something") {
    const Session session =
        after(silent_horn(), {"state sounding", "look P3", "measure voltmeter X3.1a",
                              "measure voltmeter X3.1b", "measure voltmeter X3.1b", "mend X3.1", "done"});
    const Debrief debrief = debrief_of(session, expertise_on(silent_horn()));
    const auto& steps = debrief.hindsight.steps;
    REQUIRE(steps.size() == 7);
    CHECK(steps[1].could_tell_nothing);
    CHECK(steps[1].better.has_value());
    CHECK_FALSE(steps[2].could_tell_nothing);
    CHECK(steps[2].bits > 0.5);
    CHECK(steps[2].suspects() < debrief.hindsight.suspects_at_first);
    CHECK(steps[3].suspects() <= steps[2].suspects());
    CHECK(steps[3].suspects() <= 4);
    CHECK(steps[3].belief > 0.2);
    CHECK(steps[4].could_tell_nothing);
    for (const StepInHindsight& step : steps) CHECK(step.expected_bits >= -1e-9);
}

TEST_CASE("Hindsight and the ranking of a technician's readings believe the same") {
    const Expertise expertise = expertise_on(silent_horn());
    const Session session = after(silent_horn(), {"state sounding", "measure voltmeter K2.87", "done"});
    const Hindsight hindsight = hindsight_of(session, expertise);
    diagnosis::Evidence evidence = expertise.complaint;
    const auto& dictionary = expertise.consultation->dictionary();
    const auto finding = std::ranges::find_if(dictionary.findings, [](const diagnosis::Finding& each) {
        return each.kind == diagnosis::Finding::Kind::voltage && each.at == "K2.87" && each.against == "body";
    });
    const auto state = std::ranges::find(dictionary.states, "sounding");
    evidence.readings.push_back({static_cast<int>(state - dictionary.states.begin()),
                                 static_cast<int>(finding - dictionary.findings.begin()), 12.6});
    diagnosis::Hypotheses hypotheses = expertise.consultation->new_hypotheses();
    const diagnosis::Ranking ranking = rank(hypotheses, evidence);
    // The same hypothesis, by two ways that share only the prior. The relay's click, which the ranking does
    // not hear, makes hindsight surer.
    const double ranked = ranking.probability[static_cast<std::size_t>(expertise.hidden.front() + 1)];
    CHECK(hindsight.steps[1].belief >= ranked * 0.8);
    CHECK(hindsight.steps[1].belief <= ranked * 4);
}

TEST_CASE("Once the vehicle is in order, to make sure is no idle question") {
    const Session session = after(silent_horn(), {"mend X3.1", "state sounding", "look P3", "done"});
    const Debrief debrief = debrief_of(session, expertise_on(silent_horn()));
    CHECK_FALSE(debrief.hindsight.steps[0].was_in_order);
    CHECK(debrief.hindsight.steps[2].was_in_order);
    CHECK_FALSE(debrief.hindsight.steps[2].could_tell_nothing);
    CHECK_FALSE(debrief.hindsight.steps[2].better.has_value());
}

TEST_CASE("Two hidden faults are found one after the other, and the steps know the pairs they speak of") {
    const auto read = test::scenario_of(
        scenario_text("<fault spec=\"open:X3.1\"/><fault spec=\"high-resistance:E3\"/>", kBothSilent));
    const Expertise expertise = expertise_on(read);
    const BestWay way = best_way(expertise);
    CHECK(way.finds_it);
    REQUIRE(way.hypotheses);
    for (const diagnosis::Diagnosis::Step& step : way.diagnosis.steps)
        for (const int hypothesis : step.choice.group) CHECK(hypothesis < way.hypotheses->count());
    const Session session = after(read, {"state sounding", "measure voltmeter X3.1b", "mend X3.1",
                                         "measure voltmeter P3.2", "mend E3", "done"});
    const Debrief debrief = debrief_of(session, expertise);
    CHECK(debrief.verdict.is_right);
    for (const StepInHindsight& step : debrief.hindsight.steps)
        if (step.better)
            for (const int hypothesis : step.better->choice.group)
                CHECK(hypothesis < debrief.hindsight.hypotheses->count());
}

TEST_CASE("The physics of the key reading is that of the computed network") {
    const Session session =
        after(silent_horn(), {"state sounding", "measure voltmeter X3.1b", "mend X3.1", "done"});
    const Debrief debrief = debrief_of(session, expertise_on(silent_horn()));
    CHECK(debrief.physics.cause.find("No current flows through contact X3.1") == 0);
    CHECK(debrief.physics.cause.find("12.6 V stands across it") != std::string::npos);
    CHECK(debrief.physics.reading.find("showed 0.0 mV") != std::string::npos);
}

TEST_CASE("Faults are sorted into skills") {
    const model::Circuit& horn = silent_horn().circuit;
    const auto skill = [&](const char* text) {
        return skill_of(horn, {network::parse_fault(horn, text).value()});
    };
    CHECK(skill("open:W203") == "open circuits");
    CHECK(skill("high-resistance:X3.1") == "bad contacts");
    CHECK(skill("high-resistance:E3") == "bad grounds");
    CHECK(skill("short-to-ground:W203") == "shorts");
    CHECK(skill("stuck-open:K2") == "switches and relays");
    CHECK(skill("blown:F7") == "fuses");
    CHECK(skill_of(horn, {}) == "nothing wrong");
}
