#include "engine/xml/document.h"

#include <catch2/catch.hpp>

#include "engine/xml/limits.h"
#include "tests/support/marked.h"

using Catch::Contains;
using halfsplit::Diagnostics;
using halfsplit::test::unmark;
using halfsplit::xml::Document;
using halfsplit::xml::read_document;

namespace {

constexpr const char* kNamespace = "urn:example";

auto read(const std::string& text) {
    return read_document(text, "a.xml", kNamespace);
}

/// The one error of the snippet, which must stand where the snippet marks it.
std::string error_at_mark(const std::string& snippet) {
    const auto marked = unmark(snippet);
    const auto result = read(marked.text);
    REQUIRE_FALSE(result);
    CHECK(result.error().size() == 1);
    CHECK(result.error().front().where.file == "a.xml");
    CHECK(result.error().front().where.line == marked.line);
    CHECK(result.error().front().where.column == marked.column);
    return result.error().front().message;
}

}  // namespace

TEST_CASE("Elements and attributes know their line and column") {
    const auto document = read(
        "<?xml version=\"1.0\"?>\n"
        "<!-- a <comment> with = \"quotes\" -->\n"
        "<root xmlns='urn:example'\n"
        "      title=\"Tür &amp; 'Tor'\"  second = \"2\">\n"
        "\t<child a='>'/> text <![CDATA[<b>]]>\n"
        "</root>\n");
    REQUIRE(document);
    const auto& root = document->root;
    CHECK(root.name == "root");
    CHECK(root.where.line == 3);
    CHECK(root.where.column == 1);
    REQUIRE(root.attributes.size() == 2);
    CHECK(root.attributes[0].value == "Tür & 'Tor'");
    CHECK(root.attributes[0].where.line == 4);
    CHECK(root.attributes[0].where.column == 7);
    CHECK(root.attributes[1].where.column == 32);
    REQUIRE(root.children.size() == 1);
    CHECK(root.children[0].where.column == 2);
    CHECK(root.children[0].attribute("a")->value == ">");
    CHECK(root.children[0].attribute("a")->where.column == 9);
    CHECK(root.children[0].attribute("b") == nullptr);
    CHECK(root.text == "text <b>");
    CHECK(root.text_where.line == 5);
    CHECK(root.text_where.column == 17);
    CHECK(document->element_count == 2);
}

TEST_CASE("Windows and old Macintosh line ends count like any other") {
    for (const std::string end : {"\n", "\r\n", "\r"}) {
        std::string text = "<r xmlns='urn:example'>";
        text.append(end).append(end).append("  <c").append(end).append(" a='1'/></r>");
        const auto document = read(text);
        REQUIRE(document);
        CHECK(document->root.children[0].where.line == 3);
        CHECK(document->root.children[0].where.column == 3);
        CHECK(document->root.children[0].attributes[0].where.line == 4);
        CHECK(document->root.children[0].attributes[0].where.column == 2);
    }
}

TEST_CASE("A byte order mark is allowed and counts as no column") {
    const auto document = read("\xEF\xBB\xBF<r xmlns='urn:example'/>");
    REQUIRE(document);
    CHECK(document->root.where.column == 1);
    CHECK(
        read("\xEF\xBB\xBF<?xml version='1.0' encoding='UTF-8' standalone='yes'?><r xmlns='urn:example'/>"));
}

TEST_CASE("Columns count code points, not bytes") {
    CHECK_THAT(error_at_mark("<r xmlns='urn:example' ä='Ω漢😀' «x»/>"), Contains("x has no value"));
}

TEST_CASE("Character references are replaced and strange ones refused") {
    const auto document = read("<r xmlns='urn:example' a='&#65;&#x42;&lt;&gt;&quot;&apos;&amp;'/>");
    REQUIRE(document);
    CHECK(document->root.attributes[0].value == "AB<>\"'&");
    for (const char* wrong :
         {"&#0;", "&#xD800;", "&#x110000;", "&#12a;", "&#;", "&#x;", "&#99999999999999;", "&#-1;"})
        CHECK_FALSE(read("<r xmlns='urn:example' a='" + std::string(wrong) + "'/>"));
}

TEST_CASE("Only the five entities of XML are known") {
    CHECK_THAT(error_at_mark("<r xmlns='urn:example'>\n  «&»nbsp;</r>"),
               Contains("entity &nbsp; is unknown"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example' a='x «&» y'/>"), Contains("write &amp;"));
}

TEST_CASE("A document type is refused at its line, before any entity is looked at") {
    const std::string bomb =
        "<?xml version=\"1.0\"?>\n"
        "«<»!DOCTYPE r [<!ENTITY a \"ha\"><!ENTITY b \"&a;&a;&a;&a;\">]>\n"
        "<r xmlns='urn:example'>&b;</r>";
    CHECK_THAT(error_at_mark(bomb), Contains("document types are not allowed"));
}

TEST_CASE("An element that is not closed is named at its start") {
    CHECK_THAT(error_at_mark("<r xmlns='urn:example'>\n <a>\n  «<b»>\n </a>\n</r>"),
               Contains("<b> is not closed") && Contains("before </a> in line 4"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example'><a/>\n «<b» c='1'>"), Contains("<b> is not closed"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example'>\n <a>\n «</ab»>\n</r>"),
               Contains("</a> is expected for <a> in line 2"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example'/>\n«</r»>"), Contains("closes nothing"));
}

TEST_CASE("Other slips of the pen are named where they are") {
    CHECK_THAT(error_at_mark("<r xmlns='urn:example' «a»='1>\n <b/>\n</r>"),
               Contains("value of a is not closed"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example' «a»=1/>"), Contains("in quotes"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example' a='1' «a»='2'/>"), Contains("given twice"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example' a='1'«b»='2'/>"), Contains("a space is expected"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example'>5 «<» 6</r>"), Contains("&lt;"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example'>\n«<»!-- never closed </r>"),
               Contains("comment is not closed"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example'><!-- a «--» b --></r>"), Contains("inside a comment"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example'>«<»![CDATA[ </r>"),
               Contains("CDATA section is not closed"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example'/> «more»"), Contains("outside the root"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example'/>\n«<»r/>"), Contains("second root"));
    CHECK_THAT(error_at_mark("«<»?php echo ?><r xmlns='urn:example'/>"), Contains("processing instructions"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example'>a «]]>» b</r>"), Contains("]]&gt;"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example' «,»/>"), Contains("an attribute or the end of <r>"));
    CHECK_THAT(error_at_mark(" \n«»"), Contains("no element"));
}

TEST_CASE("Several independent slips are all reported") {
    const auto result = read("<r xmlns='urn:example' a='1' a='2'>\n &x; & <b c='1' c='2'/></r>");
    REQUIRE_FALSE(result);
    CHECK(result.error().size() == 4);
}

TEST_CASE("Elements belong to the one namespace without a prefix") {
    CHECK_THAT(error_at_mark("«<»r/>"), Contains("xmlns=\"urn:example\" is expected"));
    CHECK_THAT(error_at_mark("<r «xmlns»='urn:other'/>"), Contains("xmlns=\"urn:example\" is expected"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example'>«<e:c»/></r>"), Contains("has a prefix"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example' «xmlns:e»='urn:e'/>"), Contains("has a prefix"));
    CHECK(read("<r xmlns='urn:example'><c xmlns='urn:example'/></r>"));
}

TEST_CASE("The hint where editors find the schema is allowed on the root") {
    const auto document = read(
        "<r xmlns='urn:example' xmlns:xsi='http://www.w3.org/2001/XMLSchema-instance' "
        "xsi:schemaLocation='urn:example a.xsd'/>");
    REQUIRE(document);
    CHECK(document->root.attributes.empty());
}

TEST_CASE("Text that is not UTF-8 is refused with its place") {
    CHECK_THAT(error_at_mark("<r xmlns='urn:example'>\n ä «\xE4»</r>"), Contains("not UTF-8"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example'>«\xC0\xAF»</r>"), Contains("not UTF-8"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example'>«\xED\xA0\x80»</r>"), Contains("not UTF-8"));
    CHECK_THAT(error_at_mark("<r xmlns='urn:example'>«\x01»</r>"), Contains("control character"));
    CHECK_FALSE(read(std::string("\xFF\xFE<\0r\0", 6)));
    CHECK_FALSE(read("<?xml version='1.0' encoding='ISO-8859-1'?><r xmlns='urn:example'/>"));
    CHECK_FALSE(read(std::string("<r xmlns='urn:example'>\0</r>", 28)));
}

TEST_CASE("What exceeds the limits is refused before a tree is built") {
    using namespace halfsplit::xml;
    std::string deep = "<r xmlns='urn:example'>";
    for (int i = 0; i < 1'000'000; ++i) deep += "<a>";
    REQUIRE_FALSE(read(deep));
    CHECK_THAT(read(deep).error().front().message, Contains("nest deeper"));

    std::string many = "<r xmlns='urn:example'>";
    for (int i = 0; i < kMaxElements; ++i) many += "<a/>";
    REQUIRE_FALSE(read(many + "</r>"));
    CHECK_THAT(read(many + "</r>").error().front().message, Contains("more than 500000 elements"));

    const std::string large(kMaxBytes + 1, ' ');
    REQUIRE_FALSE(read(large));
    CHECK_THAT(read(large).error().front().message, Contains("too large; 64 MiB"));

    const std::string wide =
        "<r xmlns='urn:example' «a»='" + std::string(kMaxAttributeBytes + 1, 'x') + "'/>";
    CHECK_THAT(error_at_mark(wide), Contains("longer than"));

    std::string attributes = "<r xmlns='urn:example'";
    for (std::size_t i = 0; i < kMaxAttributes; ++i) attributes += " a" + std::to_string(i) + "='1'";
    CHECK_THAT(read(attributes + "/>").error().front().message, Contains("more than 64 attributes"));
}

TEST_CASE("Nesting up to the limit is fine") {
    std::string text = "<r xmlns='urn:example'>";
    for (int i = 1; i < halfsplit::xml::kMaxDepth; ++i) text += "<a>";
    for (int i = 1; i < halfsplit::xml::kMaxDepth; ++i) text += "</a>";
    CHECK(read(text + "</r>"));
}

TEST_CASE("A flood of slips ends after a hundred messages") {
    std::string text = "<r xmlns='urn:example'>";
    for (int i = 0; i < 10'000; ++i) text += "&x;";
    CHECK(read(text + "</r>").error().size() == halfsplit::xml::kMaxErrors);
}

TEST_CASE("A place in an attribute's value is found in the file, references and line ends counted") {
    const std::string text =
        "\xEF\xBB\xBF<root xmlns='urn:example'\n"
        "  a = 'x &lt; y &#228;z\r\n"
        "  w'/>\n";
    const auto document = read(text);
    REQUIRE(document);
    const auto& attribute = document->root.attributes.front();
    CHECK(attribute.value == "x < y \xC3\xA4z   w");
    const auto place = [&](int column) {
        const auto mark = halfsplit::xml::mark_in_value(text, attribute, column);
        return std::vector{mark.line, mark.column};
    };
    CHECK(place(1) == std::vector{2, 8});   // x
    CHECK(place(3) == std::vector{2, 10});  // &lt;
    CHECK(place(5) == std::vector{2, 15});  // y
    CHECK(place(7) == std::vector{2, 17});  // &#228;
    CHECK(place(8) == std::vector{2, 23});  // z
    CHECK(place(12) == std::vector{3, 3});  // w
    CHECK(place(13) == std::vector{3, 4});  // its end
}
