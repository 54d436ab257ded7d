#include <catch2/catch.hpp>

#include "engine/base/diagnostic.h"

using namespace halfsplit;

TEST_CASE("A diagnostic names file, line and column where they are known") {
    CHECK(to_text({{"a.xml", 3, 7}, "wrong"}) == "a.xml:3:7: error: wrong");
    CHECK(to_text({{"a.xml", 0, 0}, "wrong"}) == "a.xml: error: wrong");
    CHECK(to_text({{}, "wrong"}) == "error: wrong");
}
