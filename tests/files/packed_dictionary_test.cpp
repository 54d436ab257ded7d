#include <catch2/catch.hpp>

#include <bit>
#include <cstdint>
#include <limits>
#include <random>

#include "ui/files/packed_dictionary.h"

using namespace halfsplit;

namespace {

constexpr std::size_t kAnyBytes = std::numeric_limits<std::size_t>::max();

struct Size {
    std::size_t states = 1;
    std::size_t faults = 1;
    std::size_t findings = 1;
};

diagnosis::Dictionary blank(const Size& size) {
    diagnosis::Dictionary dictionary;
    dictionary.states.resize(size.states);
    dictionary.faults.resize(size.faults);
    dictionary.findings.resize(size.findings);
    dictionary.told.resize(size.states * (size.faults + 1));
    dictionary.values.resize(dictionary.told.size() * size.findings);
    return dictionary;
}

/// Every pattern of 32 bits may be in it: all the kinds of NaN, infinities, both zeros. Of `changed` in a
/// hundred cells it is another than in the sound vehicle's row.
diagnosis::Dictionary random_dictionary(const Size& size, std::uint64_t seed, unsigned changed) {
    diagnosis::Dictionary dictionary = blank(size);
    std::mt19937_64 random(seed);
    const auto any = [&] { return std::bit_cast<float>(static_cast<std::uint32_t>(random())); };
    for (std::size_t cell = 0; cell < dictionary.values.size(); ++cell) {
        const std::size_t row = cell / size.findings;
        const std::size_t sound =
            row / (size.faults + 1) * (size.faults + 1) * size.findings + cell % size.findings;
        const bool is_sound = row % (size.faults + 1) == 0;
        dictionary.values[cell] = is_sound || random() % 100 < changed ? any() : dictionary.values[sound];
    }
    for (auto& told : dictionary.told) told = static_cast<diagnosis::Told>(random() % 3);
    return dictionary;
}

bool are_same_to_the_bit(const diagnosis::Dictionary& one, const diagnosis::Dictionary& other) {
    if (one.told != other.told || one.values.size() != other.values.size()) return false;
    for (std::size_t cell = 0; cell < one.values.size(); ++cell)
        if (std::bit_cast<std::uint32_t>(one.values[cell]) !=
            std::bit_cast<std::uint32_t>(other.values[cell]))
            return false;
    return true;
}

std::string bytes_of(const diagnosis::Dictionary& dictionary) {
    return files::packed(dictionary, kAnyBytes, 1).value();
}

}  // namespace

TEST_CASE("A dictionary comes back from its bytes to the bit, whatever is in it") {
    // The largest two are several blocks of rows a state, the last of which is not full.
    const Size sizes[] = {{1, 0, 1}, {1, 1, 3}, {3, 7, 11}, {2, 1000, 701}, {2, 5, 300000}, {4, 60, 0}};
    std::uint64_t seed = 1;
    for (const Size& size : sizes)
        for (const unsigned changed : {0U, 3U, 100U}) {
            const auto dictionary = random_dictionary(size, seed++, changed);
            for (const int threads : {1, 2}) {
                auto other = blank(size);
                INFO(size.states << " " << size.faults << " " << size.findings << " " << changed);
                REQUIRE(files::unpack(files::packed(dictionary, kAnyBytes, threads).value(), other, threads));
                CHECK(are_same_to_the_bit(dictionary, other));
            }
        }
}

TEST_CASE("The bytes do not depend on how many threads made them") {
    const auto dictionary = random_dictionary({2, 1000, 701}, 5, 3);
    CHECK(files::packed(dictionary, kAnyBytes, 1) == files::packed(dictionary, kAnyBytes, 3));
}

TEST_CASE("What a fault does not change takes no room") {
    const auto dictionary = random_dictionary({2, 1000, 701}, 5, 0);
    const std::size_t sound_rows = 2 * 701 * sizeof(float);
    CHECK(bytes_of(dictionary).size() < 2 * sound_rows);
}

TEST_CASE("A dictionary of more bytes than it may be is not packed") {
    const auto dictionary = random_dictionary({2, 1000, 701}, 6, 3);
    const std::size_t size = bytes_of(dictionary).size();
    CHECK(files::packed(dictionary, size, 2));
    CHECK_FALSE(files::packed(dictionary, size - 1, 2));
    CHECK_FALSE(files::packed(dictionary, 0, 2));
}

TEST_CASE("Bytes with any bit changed, any byte missing or of another size are refused") {
    const Size size{2, 3, 5};
    const std::string bytes = bytes_of(random_dictionary(size, 7, 30));
    auto other = blank(size);
    for (std::size_t place = 0; place < bytes.size(); ++place)
        for (int bit = 0; bit < 8; ++bit) {
            std::string damaged = bytes;
            damaged[place] = static_cast<char>(damaged[place] ^ (1 << bit));
            INFO(place << " " << bit);
            CHECK_FALSE(files::unpack(damaged, other, 1));
        }
    for (std::size_t length = 0; length < bytes.size(); ++length)
        CHECK_FALSE(files::unpack(std::string_view(bytes).substr(0, length), other, 1));
    CHECK_FALSE(files::unpack(bytes + "x", other, 1));
    auto larger = blank({2, 4, 5});
    CHECK_FALSE(files::unpack(bytes, larger, 1));
    CHECK(files::unpack(bytes, other, 1));
}
