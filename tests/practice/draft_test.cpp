#include "engine/practice/draft/draft.h"

#include <catch2/catch.hpp>

#include <set>

#include "engine/diagnosis/dictionary/make_dictionary.h"
#include "engine/diagnosis/suspects/groups.h"
#include "engine/practice/scenario/write_scenario.h"
#include "tests/practice/scenario_texts.h"
#include "tests/support/circuit_text.h"

using namespace halfsplit;
using namespace halfsplit::practice;

TEST_CASE(
    "Drafts are of the level asked for, each of another group of suspects, and the same seed drafts the "
    "same") {
    const model::Circuit horn = test::circuit_file("circuits/horn.circuit.xml");
    const std::shared_ptr<const diagnosis::Consultation> consultation =
        diagnosis::Consultation::on(horn, diagnosis::make_dictionary(horn).value()).value();
    for (const int level : {2, 4}) {
        INFO("level " << level);
        const auto drafts = draft_scenarios(horn, consultation, {level, 5, 7});
        REQUIRE(drafts.size() == 5);
        std::vector<int> hypotheses;
        std::set<std::string> ids;
        for (const Draft& draft : drafts) {
            CHECK(draft.fairness.problems.empty());
            CHECK(draft.fairness.way.minutes() >= minutes_of_level(level).least);
            CHECK(draft.fairness.way.minutes() <= minutes_of_level(level).most);
            CHECK(draft.scenario.budget_min > draft.fairness.way.minutes());
            ids.insert(draft.scenario.id);
            const auto expertise = expertise_with(draft.scenario, horn, consultation);
            REQUIRE(expertise);
            hypotheses.push_back(expertise->hidden.front() + 1);
            // What is written reads back.
            const auto again =
                test::scenario_of(written_scenario(draft.scenario, horn, "../circuits/horn.circuit.xml"));
            CHECK(again.scenario.faults.front().text == draft.scenario.faults.front().text);
        }
        CHECK(ids.size() == drafts.size());
        CHECK(ambiguity_groups(consultation->hypotheses(), hypotheses, consultation->permitted()).size() ==
              5);
        const auto again = draft_scenarios(horn, consultation, {level, 5, 7});
        for (std::size_t i = 0; i < drafts.size(); ++i)
            CHECK(again[i].scenario.faults.front().text == drafts[i].scenario.faults.front().text);
    }
}
