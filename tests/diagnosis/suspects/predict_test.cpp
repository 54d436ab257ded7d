#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/diagnosis/dictionary/make_dictionary.h"
#include "engine/diagnosis/suspects/predict.h"
#include "engine/diagnosis/suspects/rank.h"
#include "tests/diagnosis/dictionary/support.h"
#include "tests/diagnosis/suspects/hand_made.h"
#include "tests/support/circuit_text.h"

using namespace halfsplit;
using diagnosis::Dictionary;
using diagnosis::Hypotheses;
using diagnosis::PredictedRow;
using diagnosis::Told;

namespace {

Dictionary of_two_faults(const model::Circuit& circuit, const std::string& state,
                         const std::vector<std::string>& faults, bool settle_anew) {
    diagnosis::DictionaryOptions options{.states = {state}, .settle_anew = settle_anew};
    for (const network::Fault& fault : test::faults_of(circuit, faults)) options.faults.push_back({fault, 1});
    auto dictionary = diagnosis::make_dictionary(circuit, options);
    REQUIRE(dictionary);
    return std::move(*dictionary);
}

double shown(const Dictionary& dictionary, const PredictedRow& row, const std::string& at) {
    const auto found = std::ranges::find(dictionary.findings, at, &diagnosis::Finding::at);
    REQUIRE(found != dictionary.findings.end());
    return static_cast<double>(row.values[static_cast<std::size_t>(found - dictionary.findings.begin())]);
}

constexpr std::array kFirstState{0};

/// Two faults, told as they stand: both take a point to 6 V, the first ten times as often. In truth, it takes
/// it to 0 V.
Dictionary put_into_what_stands() {
    Dictionary dictionary = test::dictionary_of({{12, 12}, {6, 12}, {6, 12}}, {10, 1});
    dictionary.told = {Told::exactly, Told::as_it_stands, Told::as_it_stands};
    return dictionary;
}

std::vector<PredictedRow> settled(std::span<const int> faults, std::span<const int> states) {
    return std::vector(states.size(), PredictedRow{{faults[0] == 0 ? 0.0F : 6.0F, 12}, Told::exactly});
}

}  // namespace

TEST_CASE("A pair of faults is put into what stands where the dictionary's faults are, else settled anew") {
    const model::Circuit circuit = test::shipped("entry-step");
    for (const bool settle_anew : {true, false}) {
        const Dictionary dictionary =
            of_two_faults(circuit, "step-door-open", {"open:M7", "blown:F26"}, settle_anew);
        const auto rows = diagnosis::pair_prediction(circuit, dictionary)({0, 1}, kFirstState);
        REQUIRE(rows.size() == 1);
        CHECK(rows.front().told == (settle_anew ? Told::exactly : Told::as_it_stands));
        CHECK(shown(dictionary, rows.front(), "M7") == 0);
        // The step went out before the faults came, or never did: only one who settles anew knows.
        CHECK(std::isnan(shown(dictionary, rows.front(), "M8.position")) == !settle_anew);
    }
}

TEST_CASE("What is settled anew takes the place of what was told as it stands") {
    const Dictionary dictionary = put_into_what_stands();
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    Hypotheses hypotheses(dictionary, spread, {}, {}, settled);
    CHECK(hypotheses.is_unsettled(1, kFirstState));
    CHECK_FALSE(hypotheses.is_unsettled(0, kFirstState));
    const double before = hypotheses.expectation(2, 0, 0).sigma;
    hypotheses.settle(1, kFirstState);
    CHECK_FALSE(hypotheses.is_unsettled(1, kFirstState));
    CHECK(hypotheses.told_of(1, 0) == Told::exactly);
    CHECK(hypotheses.values(1, 0)[0] == 0);
    CHECK(hypotheses.values(2, 0)[0] == 6);
    // Looked at more closely, it must not count as the more certain for that.
    hypotheses.settle(2, kFirstState);
    CHECK(hypotheses.expectation(2, 0, 0).sigma == before);
}

TEST_CASE("Before anybody acts on what was told as it stands it is settled anew") {
    const Dictionary dictionary = put_into_what_stands();
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    Hypotheses hypotheses(dictionary, spread, {}, {}, settled);
    const auto ranking = diagnosis::rank(hypotheses, {{{0, 0, 6}, {0, 1, 12}}, {}, true});
    CHECK_FALSE(hypotheses.is_unsettled(1, kFirstState));
    CHECK(ranking.best() == 2);
    // By hand: 0.85 of a bell of some 0.85 V at its top, against ten times 0.15 of nonsense over 12 V.
    CHECK(ranking.probability[2] == Approx(0.76).margin(0.02));
}
