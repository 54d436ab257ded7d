#include <catch2/catch.hpp>

#include "engine/model/reading/nearest_name.h"

using namespace halfsplit::model::reading;

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
    CHECK(did_you_mean("rellay", {"relay", "fuse"}) == " (did you mean relay?)");
    CHECK(did_you_mean("RELAY", {"relay"}) == " (did you mean relay?)");
    CHECK(did_you_mean("H2", {"E2", "H1", "W2"}) == " (did you mean H1?)");
    CHECK(did_you_mean("transformer", {"relay", "fuse"}).empty());
    CHECK(did_you_mean("x", {"y", "z"}).empty());
    CHECK(did_you_mean("", {"y"}).empty());
    CHECK(did_you_mean(std::string(1000, 'a'), {"a"}).empty());
}

TEST_CASE("Names are listed as a sentence needs them") {
    CHECK(listed({"a"}) == "a");
    CHECK(listed({"a", "b", "c"}) == "a, b or c");
}
