#include <catch2/catch.hpp>

#include "tests/journeys/real_window.h"
#include "tests/support/files.h"

namespace halfsplit {

using test::RealWindow;

TEST_CASE("Somebody studies the horns: key on, two leads put down, a fuse pulled") {
    RealWindow window("study-horns", {test::project_file("circuits/horn.circuit.xml"), "--mode", "study"});
    window.click("control:S1=run");
    window.click("point:F7.2");
    window.click("point:G1.-", 3);
    CHECK(window.waits_for("display"));
    window.click("part:F7");
    window.click("chosen:out");
    CHECK(window.leave() == 0);
}

}  // namespace halfsplit
