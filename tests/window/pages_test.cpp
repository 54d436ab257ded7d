#include <catch2/catch.hpp>

#include <memory>

#include "tests/support/circuit_text.h"
#include "tests/support/files.h"
#include "tests/window/headless.h"
#include "ui/window/paper/page.h"

namespace halfsplit {

using test::Headless;
using window::Key;

namespace {

const window::DrawnCircuit& drawn_van() {
    static const window::DrawnCircuit van = window::drawn(
        std::make_shared<const model::Circuit>(test::circuit_file("circuits/van-body.circuit.xml")));
    return van;
}

/// The middle of a reference that leads from one page to another.
std::optional<view::diagram::Label> reference_between(int from, int to) {
    for (const auto& label : drawn_van().pages[static_cast<std::size_t>(from)].diagram.labels)
        if (label.role == view::diagram::Label::Role::reference && label.page == to) return label;
    return std::nullopt;
}

}  // namespace

TEST_CASE(
    "A whole van begins with the map of its feeds and grounds, and what is looked for is found beyond it") {
    REQUIRE(drawn_van().pages.front().is_map);
    const window::Pick fuse{window::Pick::Kind::part, "horn-F7"};
    const auto found = find_drawn(drawn_van(), fuse, -1);
    REQUIRE(found);
    CHECK(found->page > 0);
    const auto on_map = find_drawn(drawn_van(), fuse, 0);
    REQUIRE(on_map);
    CHECK(on_map->page == 0);
}

TEST_CASE("Going on from page to page with one thing comes round to where it began") {
    const window::Pick rail{window::Pick::Kind::point, "J1"};
    const auto start = find_drawn(drawn_van(), rail, -1);
    REQUIRE(start);
    int page = start->page;
    int turns = 0;
    do {
        const auto next = find_further(drawn_van(), rail, page);
        REQUIRE(next);
        CHECK(next->page != page);
        page = next->page;
        ++turns;
    } while (page != start->page && turns < 100);
    CHECK(turns > 10);
    CHECK(page == start->page);
    CHECK_FALSE(find_further(drawn_van(), {window::Pick::Kind::wire, "W201"}, 0));
}

TEST_CASE("Every reference of the van leads to something that is drawn there") {
    for (const auto& page : drawn_van().pages)
        for (const auto& label : page.diagram.labels) {
            if (label.role != view::diagram::Label::Role::reference) continue;
            INFO(page.title << ": " << label.text);
            const auto target = target_of(drawn_van(), label);
            REQUIRE(target);
            CHECK(target->page == label.page);
        }
}

TEST_CASE("A click on a reference turns to its page, Backspace back again") {
    const auto reference = reference_between(0, 1);
    REQUIRE(reference);
    Headless hands;
    hands.desk().keep_landmarks(true);
    hands.desk().open(test::project_file("circuits/van-body.circuit.xml"));
    hands.frames(2);
    const std::string name = "reference:" + reference->leads_to + "@2";
    REQUIRE(hands.is_there(name));
    hands.click(name);
    hands.frames(2);
    CHECK_FALSE(hands.is_there(name));
    CHECK(hands.is_there("part:" + reference->leads_to));
    hands.key(Key::backspace);
    hands.frames(2);
    CHECK(hands.is_there(name));
}

}  // namespace halfsplit
