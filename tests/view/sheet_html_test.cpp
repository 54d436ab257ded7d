#include <catch2/catch.hpp>

#include <pugixml.hpp>
#include <regex>

#include "tests/support/circuit_text.h"
#include "ui/view/sheet_diagram.h"
#include "ui/view/sheet_html.h"
#include "ui/view/sheet_text.h"
#include "ui/view/unit_signs.h"

using namespace halfsplit;

namespace {

std::string html_of(const model::Circuit& circuit) {
    const auto sheet = diagnosis::make_sheet(circuit);
    REQUIRE(sheet);
    return view::sheet_html(circuit, *sheet, view::diagram::everything(circuit));
}

/// A circuit whose author writes what would be mark-up.
model::Circuit with_signs() {
    return test::circuit_of(
        R"(<battery id="G1" title="A &lt;b&gt;battery&lt;/b&gt; &amp; &quot;more&quot;" open-circuit-v="12" plug="none"/>
           <lamp id="H1" title="&lt;script&gt;alert(1)&lt;/script&gt;" rated-w="5"/>
           <switch id="S1" title="It's &amp;lt; this"><pin id="1"/><pin id="2"/><position id="off"/>
             <position id="on" title="&lt;on&gt;"><contact from="1" to="2"/></position></switch>
           <ground-point id="E1"/>)",
        R"(<wire id="W1" from="G1.+" to="S1.1" area-mm2="1" length-m="1"/>
           <wire id="W2" from="S1.2" to="H1.1" area-mm2="1" length-m="1"/>
           <wire id="W3" from="H1.2" to="E1" area-mm2="1" length-m="1"/>
           <wire id="W4" from="G1.-" to="E1" area-mm2="16" length-m="0.3"/>)",
        "",
        R"(<state id="on" title="H1 &lt;lit&gt; &amp; &quot;bright&quot;"><set what="S1" to="on"/></state>)");
}

/// Every text of the page, one after the other.
void gather_text(const pugi::xml_node& node, std::string& text) {
    for (const pugi::xml_node& child : node.children()) {
        if (child.type() == pugi::node_pcdata) text += std::string(child.value()) + "\n";
        gather_text(child, text);
    }
}

std::string text_of(const std::string& html) {
    pugi::xml_document document;
    const pugi::xml_parse_result parsed =
        document.load_buffer(html.data(), html.size(), pugi::parse_default | pugi::parse_doctype);
    INFO(parsed.description());
    REQUIRE(parsed);
    std::string text;
    gather_text(document, text);
    return text;
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("Whatever an author writes is text on the page and never mark-up") {
    const std::string html = html_of(with_signs());
    CHECK_FALSE(contains(html, "<script"));
    CHECK_FALSE(contains(html, "<b>"));
    CHECK_FALSE(contains(html, "<lit>"));
    const std::string text = text_of(html);
    for (const char* written : {"A <b>battery</b> & \"more\"", "<script>alert(1)</script>",
                                "H1 <lit> & \"bright\"", "S1 It's &lt; this: <on>"})
        CHECK(contains(text, written));
}

TEST_CASE(
    "The page of every circuit is well-formed, needs nothing else and shuts no element in a way HTML lacks") {
    // HTML, 13.1.2.1 (living standard): only void elements may end in "/>" outside SVG.
    static const std::regex shut_short(
        "<(td|th|div|p|span|section|style|ul|ol|li|h1|h2|tr|table|thead|tbody|"
        "colgroup|body|head|html)( [^<>]*)?/>");
    for (const char* name :
         {"blower", "brake-lights-trailer", "central-locking", "entry-step", "exterior-lights",
          "heated-seats", "horn", "interior-fade", "interior-light", "parasitic-drain", "power-window",
          "radiator-fan", "rear-window-heater", "sliding-door", "tail-deflector", "turn-signals",
          "windows-one-touch", "wipers"}) {
        INFO(name);
        const model::Circuit circuit = test::circuit_file(std::string("circuits/") + name + ".circuit.xml");
        const std::string html = html_of(circuit);
        const std::string text = text_of(html);
        CHECK(contains(text, circuit.title + ": test sheet"));
        // The demo circuits say it; an owner's own circuit is not called invented.
        CHECK((contains(text, "invented") || contains(text, "fictional")));
        for (const model::OperatingState& state : circuit.states)
            CHECK(contains(text, view::with_unit_signs(state.title)));
        CHECK(contains(html, "<svg "));
        CHECK_FALSE(std::regex_search(html, shut_short));
        for (const char* elsewhere : {"<link", "<img", " src=", "@import", "url(http"})
            CHECK_FALSE(contains(html, elsewhere));
    }
}

TEST_CASE("The same sheet gives the same page") {
    const model::Circuit circuit = test::circuit_file("circuits/horn.circuit.xml");
    CHECK(html_of(circuit) == html_of(circuit));
}

// A4 is 210 by 297 mm (ISO 216).
TEST_CASE("Diagrams fit A4, those of a whole vehicle too") {
    for (const char* name :
         {"horn", "entry-step", "exterior-lights", "turn-signals", "windows-one-touch", "van-body"}) {
        const model::Circuit circuit = test::circuit_file(std::string("circuits/") + name + ".circuit.xml");
        const auto pages = view::diagram_pages(circuit, view::diagram::everything(circuit));
        INFO(name);
        CHECK_FALSE(pages.empty());
        for (const view::DiagramPage& page : pages) {
            double width_mm = 0;
            for (const auto& [attribute, value] : page.picture.attributes)
                if (attribute == "width") width_mm = std::stod(value);
            CHECK(width_mm > 20);
            CHECK(width_mm <= (page.across ? 297 - 24 : 210 - 24));
            CHECK(page.height_mm <= (page.across ? 210 - 24 : 297 - 24));
        }
    }
    // Most of a vehicle, but not all of it, has no pages of its own.
    const model::Circuit van = test::circuit_file("circuits/van-body.circuit.xml");
    view::diagram::Selection most = view::diagram::everything(van);
    most.parts.pop_back();
    CHECK(view::diagram_pages(van, most).empty());
}

/// Each part is on one of the pages, wherever the diagram was cut.
TEST_CASE("No part is lost where a diagram is cut into pages") {
    for (const char* name :
         {"exterior-lights", "windows-one-touch", "wipers", "parasitic-drain", "van-body"}) {
        const model::Circuit circuit = test::circuit_file(std::string("circuits/") + name + ".circuit.xml");
        std::string all;
        for (view::DiagramPage& page : view::diagram_pages(circuit, view::diagram::everything(circuit)))
            all += xml::written(page.picture);
        for (const model::Part& part : circuit.parts) {
            INFO(name << " " << part.id);
            CHECK(contains(all, "\"" + part.id + "\""));
        }
        for (const model::Wire& wire : circuit.wires) {
            INFO(name << " " << wire.id);
            CHECK(contains(all, "\"" + wire.id + "\""));
        }
    }
}
