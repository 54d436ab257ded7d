#include "engine/practice/draft/complaint.h"

#include <catch2/catch.hpp>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/make_dictionary.h"
#include "engine/practice/draft/symptoms.h"
#include "tests/support/circuit_text.h"

using namespace halfsplit;
using namespace halfsplit::practice;
using diagnosis::Finding;
using diagnosis::Sign;

namespace {

Symptom stands(const model::Circuit& circuit, const std::string& state, const std::string& part, Sign where) {
    const int index = static_cast<int>(circuit.find_state(state) - circuit.states.data());
    return {index, {Finding::Kind::sign, part + ".position", "", -1}, static_cast<double>(where), {}};
}

}  // namespace

// The words are ours; which end is which, the circuit file's titles say.
TEST_CASE("A customer says of a lock that it does not lock, and of a step that it stays in") {
    const model::Circuit locks = test::circuit_file("circuits/central-locking.circuit.xml");
    CHECK(complaint_for(locks, {stands(locks, "locks-locked", "M12", Sign::none)}, 3)
              .find("Lock actuator, passenger door does not lock") != std::string::npos);
    CHECK(title_for(locks, {stands(locks, "locks-locked", "M12", Sign::none)}) ==
          "Lock actuator, passenger door: unlocked");
    const model::Circuit step = test::circuit_file("circuits/entry-step.circuit.xml");
    CHECK(complaint_for(step, {stands(step, "step-door-open", "M8", Sign::none)}, 3)
              .find("Entry step (0 % in, 100 % out) stays at 0 %") != std::string::npos);
    CHECK(complaint_for(step, {stands(step, "step-door-open", "M8", Sign::weak)}, 3).find("stops part way") !=
          std::string::npos);
}

// Mechanics: a lock that is stuck draws its pulse as ever, and shows by nothing else.
TEST_CASE("That a lock is stuck is noticed by where it stands alone") {
    const model::Circuit locks = test::circuit_file("circuits/central-locking.circuit.xml");
    const auto faults = test::faults_of(locks, {"seized:M12"});
    const auto dictionary =
        diagnosis::make_dictionary(locks, {.states = {"locks-locked"}, .faults = {{faults.front(), 1}}});
    REQUIRE(dictionary);
    const auto presentations = presentations_of(locks, *dictionary, 0);
    REQUIRE(presentations.size() == 1);
    REQUIRE(presentations.front().readings.size() == 1);
    CHECK(dictionary->findings[at(presentations.front().readings.front().finding)].at == "M12.position");
}
