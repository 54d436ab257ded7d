#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "engine/diagnosis/dictionary/sign.h"
#include "tests/diagnosis/dictionary/support.h"
#include "tests/support/circuit_text.h"

using namespace halfsplit;
using diagnosis::Sign;

namespace {

/// One state with these faults, and no others.
diagnosis::Dictionary with_faults(const model::Circuit& circuit, const std::string& state,
                                  const std::vector<std::string>& faults, bool settle_anew = true) {
    diagnosis::DictionaryOptions options{.states = {state}};
    for (const network::Fault& fault : test::faults_of(circuit, faults)) options.faults.push_back({fault, 1});
    options.settle_anew = settle_anew;
    auto dictionary = diagnosis::make_dictionary(circuit, options);
    REQUIRE(dictionary);
    return std::move(*dictionary);
}

double stands(const diagnosis::Dictionary& dictionary, int row, const std::string& what) {
    const auto found = std::ranges::find(dictionary.findings, what + ".position", &diagnosis::Finding::at);
    REQUIRE(found != dictionary.findings.end());
    return dictionary.value(0, row, static_cast<int>(found - dictionary.findings.begin()));
}

constexpr auto kLocked = static_cast<double>(Sign::works);
constexpr auto kUnlocked = static_cast<double>(Sign::none);

}  // namespace

// By hand from the circuit file: M11 to M14 hang on two lines in parallel, W1218 is what the key asks by.
TEST_CASE("A lock whose wire is broken stays unlocked while the others lock") {
    const auto dictionary =
        with_faults(test::shipped("central-locking"), "locks-locked", {"open:M12", "open:W1218"});
    for (const char* lock : {"M11", "M12", "M13", "M14"}) {
        INFO(lock);
        CHECK(stands(dictionary, 0, lock) == kLocked);
        CHECK(stands(dictionary, 1, lock) == (std::string(lock) == "M12" ? kUnlocked : kLocked));
        CHECK(stands(dictionary, 2, lock) == kUnlocked);
    }
}

// The circuit file's title says which end is which: 0 % in, 100 % out.
TEST_CASE("A step whose motor is dead, or that is jammed, does not come out") {
    const auto dictionary =
        with_faults(test::shipped("entry-step"), "step-door-open", {"open:M7", "seized:M8"});
    CHECK(stands(dictionary, 0, "M8") == static_cast<double>(Sign::works));
    for (const int row : {1, 2}) CHECK(stands(dictionary, row, "M8") == static_cast<double>(Sign::none));
}

TEST_CASE("Where something would have gone to is not known of a fault that came when it was there") {
    const auto dictionary =
        with_faults(test::shipped("central-locking"), "locks-locked", {"open:W1218"}, false);
    REQUIRE(dictionary.told_of(0, 1) == diagnosis::Told::as_it_stands);
    CHECK(std::isnan(stands(dictionary, 1, "M12")));
    CHECK(stands(dictionary, 0, "M12") == kLocked);
}

TEST_CASE("What stands within a fortieth of an end is at it") {
    CHECK(diagnosis::sign_at(0.02) == Sign::none);
    CHECK(diagnosis::sign_at(0.03) == Sign::weak);
    CHECK(diagnosis::sign_at(0.97) == Sign::weak);
    CHECK(diagnosis::sign_at(0.98) == Sign::works);
}
