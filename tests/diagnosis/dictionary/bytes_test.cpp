#include <catch2/catch.hpp>

#include <limits>

#include "engine/diagnosis/dictionary/dictionary_bytes.h"
#include "tests/diagnosis/suspects/hand_made.h"

using namespace halfsplit;

TEST_CASE("A dictionary comes back from its bytes as it was, unknown values and all") {
    auto dictionary = test::dictionary_of({{12, 5}, {0, 2}, {1, 3}});
    dictionary.values[3] = std::numeric_limits<float>::quiet_NaN();
    dictionary.told = {diagnosis::Told::exactly, diagnosis::Told::not_at_all, diagnosis::Told::as_it_stands};
    const std::string bytes = diagnosis::to_bytes(dictionary);
    auto other = test::dictionary_of({{0, 0}, {0, 0}, {0, 0}});
    REQUIRE(diagnosis::from_bytes(bytes, other));
    CHECK(other.told == dictionary.told);
    CHECK(other.values[0] == 12);
    CHECK(other.values[5] == 3);
    CHECK(other.values[3] != other.values[3]);
}

TEST_CASE("Bytes with any bit changed, any byte missing or of another size are refused") {
    const auto dictionary = test::dictionary_of({{12, 5}, {0, 2}});
    const std::string bytes = diagnosis::to_bytes(dictionary);
    auto other = test::dictionary_of({{1, 1}, {1, 1}});
    for (std::size_t place = 0; place < bytes.size(); ++place)
        for (int bit = 0; bit < 8; ++bit) {
            std::string damaged = bytes;
            damaged[place] = static_cast<char>(damaged[place] ^ (1 << bit));
            INFO(place << " " << bit);
            CHECK_FALSE(diagnosis::from_bytes(damaged, other));
        }
    for (std::size_t size = 0; size < bytes.size(); ++size)
        CHECK_FALSE(diagnosis::from_bytes(std::string_view(bytes).substr(0, size), other));
    CHECK_FALSE(diagnosis::from_bytes(bytes + "x", other));
    CHECK(other.values == std::vector<float>{1, 1, 1, 1});
    auto larger = test::dictionary_of({{1, 1}, {1, 1}, {1, 1}});
    CHECK_FALSE(diagnosis::from_bytes(bytes, larger));
}
