#include <catch2/catch.hpp>

#include "engine/base/nearest.h"

using namespace halfsplit;

using Names = std::vector<std::string_view>;

// Optimal string alignment distances worked out by hand.
TEST_CASE("The edit distance counts insertions, deletions, replacements and swaps") {
    CHECK(edit_distance("fuse", "fuse") == 0);
    CHECK(edit_distance("fuse", "fues") == 1);
    CHECK(edit_distance("fuse", "use") == 1);
    CHECK(edit_distance("fuse", "fused") == 1);
    CHECK(edit_distance("fuse", "muse") == 1);
    CHECK(edit_distance("kitten", "sitting") == 3);
    CHECK(edit_distance("", "abc") == 3);
    CHECK(edit_distance("abc", "") == 3);
}

TEST_CASE("Only a near name is suggested") {
    CHECK(did_you_mean("rellay", Names{"relay", "fuse"}) == " (did you mean relay?)");
    CHECK(did_you_mean("RELAY", Names{"relay"}) == " (did you mean relay?)");
    CHECK(did_you_mean("H2", Names{"E2", "H1", "W2"}) == " (did you mean H1?)");
    CHECK(did_you_mean("transformer", Names{"relay", "fuse"}).empty());
    CHECK(did_you_mean("x", Names{"y", "z"}).empty());
    CHECK(did_you_mean("", Names{"y"}).empty());
    CHECK(did_you_mean(std::string(1000, 'a'), Names{"a"}).empty());
}

TEST_CASE("Names are listed as a sentence needs them") {
    CHECK(listed(Names{"a"}) == "a");
    CHECK(listed(Names{"a", "b", "c"}) == "a, b or c");
}
