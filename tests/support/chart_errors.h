#pragma once

#include <catch2/catch.hpp>
#include <string>

#include "engine/model/chart/read_chart.h"
#include "tests/support/chart_player.h"
#include "tests/support/marked.h"

namespace halfsplit::test {

/// The one error of a behaviour file, which must stand where the inside of its <scxml> marks it.
inline std::string chart_error(const std::string& inside, const std::string& attributes = "") {
    const Marked marked = unmark(chart_text(inside, attributes));
    const auto chart = model::chart::read_chart(marked.text, "a.scxml");
    INFO(marked.text);
    REQUIRE_FALSE(chart);
    std::string all;
    for (const Diagnostic& error : chart.error()) all += to_text(error) + "\n";
    INFO(all);
    CHECK(chart.error().size() == 1);
    CHECK(chart.error().front().where.file == "a.scxml");
    CHECK(chart.error().front().where.line == marked.line);
    CHECK(chart.error().front().where.column == marked.column);
    return chart.error().front().message;
}

}  // namespace halfsplit::test
