#include <catch2/catch.hpp>

#include <algorithm>

#include "engine/diagnosis/dictionary/make_dictionary.h"
#include "engine/diagnosis/next_test/consultation.h"
#include "tests/support/circuit_text.h"
#include "tests/support/every_plan.h"
#include "tests/support/small_case.h"

using namespace halfsplit;

namespace {

template <class Result>
auto taken(Result result) {
    if (!result) FAIL(to_text(result.error().front()));
    return std::move(*result);
}

}  // namespace

// The judge tries every order of tests and repairs, and shares nothing with the advice. The tenth is the
// product's own promise.
TEST_CASE("Following the advice through takes no more than a tenth longer than the best of all strategies") {
    for (const char* name : {"horn", "blower", "brake-lights-trailer"}) {
        const model::Circuit circuit = test::circuit_file(std::string("circuits/") + name + ".circuit.xml");
        const auto consultation =
            taken(diagnosis::Consultation::on(circuit, taken(diagnosis::make_dictionary(circuit))));
        const auto spread = taken(diagnosis::spread_of(circuit, consultation->dictionary(), {}));
        std::mt19937_64 generator(2);
        double sum = 0;
        constexpr int kCases = 4;
        for (int i = 0; i < kCases; ++i) {
            const auto small = test::draw_small_case(circuit, consultation->hypotheses(), spread,
                                                     consultation->permitted(), 10, 10, generator);
            REQUIRE(small);
            const double least = test::EveryPlan(small->outlook).least_minutes();
            const double ratio = test::minutes_as_advised(*small) / least;
            INFO(name << ", case " << i << ": at least " << least << " min, times " << ratio);
            CHECK(ratio > 1 - 1e-9);
            CHECK(ratio < 1.1);
            sum += ratio;
        }
        CHECK(sum / kCases < 1.02);
    }
}
