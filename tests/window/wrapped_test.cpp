#include "ui/window/frame/wrapped.h"

#include <imgui.h>

#include <catch2/catch.hpp>

#include <sstream>

#include "tests/window/headless.h"

namespace halfsplit {

TEST_CASE("Lines break at spaces only: the name of a terminal stays in one piece") {
    test::Headless hands;
    hands.frames(2);
    ImGui::NewFrame();
    const std::string text = "Red (+) on K2.87, black (-) on G1.+, then W12 to E3. It is 12.31 V there.";
    for (float width = 60; width < 600; width += 7) {
        const std::string lines = window::wrapped(text, width);
        std::string joined = lines;
        for (char& letter : joined)
            if (letter == '\n') letter = ' ';
        CHECK(joined == text);
        std::istringstream each(lines);
        for (std::string line; std::getline(each, line);)
            if (line.find(' ') != std::string::npos) CHECK(ImGui::CalcTextSize(line.c_str()).x <= width);
    }
    ImGui::EndFrame();
}

}  // namespace halfsplit
