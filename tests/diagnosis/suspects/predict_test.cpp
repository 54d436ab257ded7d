#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/diagnosis/dictionary/make_dictionary.h"
#include "engine/diagnosis/dictionary/row_as_it_stands.h"
#include "engine/diagnosis/dictionary/what_moves.h"
#include "engine/diagnosis/suspects/predict.h"
#include "tests/diagnosis/dictionary/support.h"
#include "tests/diagnosis/suspects/hand_made.h"
#include "tests/support/circuit_text.h"

using namespace halfsplit;
using diagnosis::Dictionary;
using diagnosis::FaultsInState;
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

double worst_apart(const std::vector<float>& one, const std::vector<float>& other) {
    double worst = 0;
    for (std::size_t i = 0; i < one.size(); ++i)
        if (!std::isnan(one[i]) || !std::isnan(other[i]))
            worst = std::max(worst, std::abs(static_cast<double>(one[i]) - static_cast<double>(other[i])));
    return worst;
}

/// Two faults, told as they stand: both take a point to 6 V, the first ten times as often. In truth, it takes
/// it to 0 V.
Dictionary put_into_what_stands() {
    Dictionary dictionary = test::dictionary_of({{12, 12}, {6, 12}, {6, 12}}, {10, 1});
    dictionary.told = {Told::exactly, Told::as_it_stands, Told::as_it_stands};
    return dictionary;
}

std::vector<PredictedRow> settled(std::span<const FaultsInState> wanted) {
    std::vector<PredictedRow> rows;
    for (const FaultsInState& each : wanted)
        rows.push_back({{each.faults.front() == 0 ? 0.0F : 6.0F, 12}, Told::exactly});
    return rows;
}

}  // namespace

TEST_CASE(
    "A pair of faults is put into what stands, which does not tell where something would have gone to") {
    const model::Circuit circuit = test::shipped("entry-step");
    for (const bool settle_anew : {true, false}) {
        const Dictionary dictionary =
            of_two_faults(circuit, "step-door-open", {"open:M7", "blown:F26"}, settle_anew);
        const auto rows =
            diagnosis::pair_prediction(circuit, dictionary)(std::array{FaultsInState{{0, 1}, 0}});
        REQUIRE(rows.size() == 1);
        CHECK(rows.front().told == Told::as_it_stands);
        CHECK(shown(dictionary, rows.front(), "M7") == 0);
        // The step went out before the faults came, or never did: only one who settles anew knows.
        CHECK(std::isnan(shown(dictionary, rows.front(), "M8.position")));
    }
}

// The reference is the circuit settled anew with both.
TEST_CASE("Pairs of faults of a circuit in which nothing goes on by itself are told exactly") {
    const model::Circuit circuit = test::shipped("radiator-fan");
    const Dictionary dictionary = of_two_faults(
        circuit, "full-speed", {"open:R2", "stuck-open:K8", "short-to-ground:W704", "open:W717"}, true);
    std::vector<FaultsInState> wanted;
    for (int one = 0; one < 4; ++one)
        for (int other = one + 1; other < 4; ++other) wanted.push_back({{one, other}, 0});
    const auto rows = diagnosis::pair_prediction(circuit, dictionary)(wanted);
    const auto anew = diagnosis::prediction_anew(circuit, dictionary)(wanted);
    REQUIRE(rows.size() == wanted.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        INFO(i);
        CHECK(rows[i].told == Told::exactly);
        CHECK(worst_apart(rows[i].values, anew[i].values) < 1e-4);
    }
}

// The reference is the network with both faults in it, built anew and settled from what stands.
TEST_CASE("Pairs of faults of a whole van are predicted as if it had been built with both") {
    const model::Circuit van = test::shipped("van-body");
    const Dictionary dictionary =
        of_two_faults(van, "driving-at-night",
                      {"open:W1905", "blown:F26", "short-to-ground:W1402", "high-resistance:F58.1"}, false);
    std::vector<FaultsInState> wanted;
    for (int one = 0; one < 4; ++one)
        for (int other = one + 1; other < 4; ++other) wanted.push_back({{one, other}, 0});
    const auto rows = diagnosis::pair_prediction(van, dictionary)(wanted);
    const auto base = diagnosis::StateBase::of(van, *van.find_state("driving-at-night"), dictionary.findings);
    REQUIRE(base);
    const diagnosis::WhatMoves moves(van, dictionary, 0);
    REQUIRE(rows.size() == wanted.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        std::vector<network::Fault> faults;
        for (const int each : wanted[i].faults) faults.push_back(dictionary.faults[at(each)].fault);
        std::vector<float> built(dictionary.findings.size());
        REQUIRE(diagnosis::row_as_it_stands(van, *base, faults, diagnosis::Start::standing,
                                            dictionary.findings, built) == Told::as_it_stands);
        moves.forget_in(built);
        INFO(faults[0].text << " and " << faults[1].text);
        CHECK(rows[i].told == Told::as_it_stands);
        CHECK(worst_apart(rows[i].values, built) < 1e-3);
    }
}

TEST_CASE("What is settled anew takes the place of what was told as it stands") {
    const Dictionary dictionary = put_into_what_stands();
    const auto spread = diagnosis::equal_spread(dictionary, 0.1);
    Hypotheses hypotheses(dictionary, spread, {}, {}, settled);
    CHECK(hypotheses.unsettled_in(1, kFirstState) == std::vector{0});
    CHECK(hypotheses.unsettled_in(0, kFirstState).empty());
    const double before = hypotheses.expectation(2, 0, 0).sigma;
    hypotheses.settle(std::array{Hypotheses::Row{1, 0}});
    CHECK(hypotheses.unsettled_in(1, kFirstState).empty());
    CHECK(hypotheses.told_of(1, 0) == Told::exactly);
    CHECK(hypotheses.values(1, 0)[0] == 0);
    CHECK(hypotheses.values(2, 0)[0] == 6);
    // Looked at more closely, it must not count as the more certain for that.
    hypotheses.settle(std::array{Hypotheses::Row{2, 0}});
    CHECK(hypotheses.expectation(2, 0, 0).sigma == before);
}
