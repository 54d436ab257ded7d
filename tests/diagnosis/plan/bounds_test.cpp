#include <catch2/catch.hpp>

#include "engine/diagnosis/plan/bounds.h"
#include "tests/diagnosis/plan/tables.h"

using namespace halfsplit;
using namespace halfsplit::diagnosis::plan;

TEST_CASE("Huffman's length is that of the textbook's code") {
    // Cormen, Leiserson, Rivest & Stein, Introduction to Algorithms, section 16.3: 224 for 45 13 12 16 9 5.
    CHECK(huffman_length(std::vector<double>{5, 9, 12, 13, 16, 45}, 2) == 224);
    // Derived by hand: 5+9+12 = 26, then 13+16+26 = 55... of two taken first (6 letters, 3 branches): 14, 39,
    // 100.
    CHECK(huffman_length(std::vector<double>{5, 9, 12, 13, 16, 45}, 3) == 14 + 39 + 100);
    CHECK(huffman_length(std::vector<double>{1, 1, 1}, 3) == 3);
    CHECK(huffman_length(std::vector<double>{4}, 2) == 0);
    CHECK(huffman_length(std::vector<double>{}, 2) == 0);
}

TEST_CASE("Dear tests count in the Huffman bound only as far as ways are long") {
    // Derived: four equal faults take two tests on average; the two cheapest cost 1 + 2.
    const SearchSpace space = search_space(
        test::table_of("fault,prior,t,u,v\ncost,,1,2,50\na,1,0,0,0\nb,1,0,1,0\nc,1,1,0,0\nd,1,1,1,1\n"));
    CHECK(bounds_of(space).huffman == Approx(3));
}

TEST_CASE("The entropy bound buys bits where they are cheapest") {
    // Derived: half a bit at 2 a bit, then half a bit at 4 / log2(4) = 2, then a quarter of one at 10.
    CHECK(entropy_bound({{2, 0.5, 2}, {10, 0.9, 2}, {4, 0.5, 4}}, 1.25) == Approx(1 + 1 + 2.5));
    CHECK(entropy_bound({{2, 0.5, 2}}, 0) == 0);
    CHECK(entropy_bound({{0, 1, 2}}, 1) == 0);
}
