#include <catch2/catch.hpp>

#include "engine/diagnosis/dictionary/make_dictionary.h"
#include "engine/diagnosis/next_test/consultation.h"
#include "tests/support/circuit_text.h"
#include "ui/view/advice_text.h"

using namespace halfsplit;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

TEST_CASE("A test that is taken meanwhile is called that") {
    const model::Circuit circuit = test::circuit_file("circuits/horn.circuit.xml");
    auto dictionary = diagnosis::make_dictionary(circuit);
    REQUIRE(dictionary);
    const auto consultation = diagnosis::Consultation::on(circuit, std::move(*dictionary));
    REQUIRE(consultation);
    auto advice = (*consultation)->advise({{}, {}, true}, {0, 1}, diagnosis::Patience::somebody_waits);
    REQUIRE(advice.choice.kind == diagnosis::Choice::Kind::test);
    CHECK_THAT(view::next_step_text(**consultation, advice), !Contains("worked out"));
    advice.choice.is_meanwhile = true;
    CHECK_THAT(view::next_step_text(**consultation, advice),
               StartsWith("Next (") && Contains(" min), while what is suspected is being worked out: "));
}
