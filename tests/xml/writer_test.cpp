#include "engine/xml/writer.h"

#include <catch2/catch.hpp>
#include <stdexcept>

#include "engine/xml/document.h"

using namespace halfsplit::xml;

// XML 1.0, sections 2.4 and 3.1: & and < never stand in character data or attribute values as themselves, nor
// does the quote that encloses a value.
TEST_CASE("What is written reads back as it was, whatever its letters") {
    const std::string hostile = "a < b && \"c\" > 'd' \xC3\xA9 ]]>";
    WrittenElement root{"root", {{"xmlns", "urn:test"}, {"value", hostile}}};
    root.add({"child", {}, hostile});
    root.add({"empty", {}});
    const auto document = read_document(written(root), "a.xml", "urn:test");
    REQUIRE(document);
    CHECK(document->root.attribute("value")->value == hostile);
    REQUIRE(document->root.children.size() == 2);
    CHECK(document->root.children[0].text == hostile);
    CHECK(document->root.children[1].text.empty());
}

TEST_CASE("The declaration is written where it is wanted, and each element has a line") {
    WrittenElement root{"a"};
    root.add({"b", {{"c", "1"}}}).add({"d", {}, "text"});
    CHECK(written(root, Declaration::without) == "<a>\n <b c=\"1\">\n  <d>text</d>\n </b>\n</a>\n");
    CHECK(written(root).starts_with("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<a>"));
}

// XML 1.0, section 2.2: these are no characters of a document.
TEST_CASE("Control characters are left out") {
    CHECK(written({"a", {}, std::string("x\x01y\x1fz")}, Declaration::without) == "<a>xyz</a>\n");
}

TEST_CASE("A name that is no XML name is a slip of the caller") {
    CHECK_THROWS_AS(written({"a b", {}}), std::invalid_argument);
    CHECK_THROWS_AS(written({"", {}}), std::invalid_argument);
    CHECK_THROWS_AS(written({"a", {{"1c", "x"}}}), std::invalid_argument);
}
