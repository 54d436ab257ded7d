#include <catch2/catch.hpp>

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/graphviz.hpp>
#include <nlohmann/json.hpp>
#include <pugixml.hpp>

#include "tests/tracing/traced.h"
#include "tests/tracing/two_lamps.h"
#include "ui/view/trace_graph.h"
#include "ui/view/trace_json.h"
#include "ui/view/trace_text.h"

namespace halfsplit::view {

using test::Bench;
using test::lost_ground;
using test::traced;
using test::two_lamps;

namespace {

struct ReadNode {
    std::string id;
    std::string label;
};
struct ReadEdge {
    std::string label;
};
using ReadGraph = boost::adjacency_list<boost::vecS, boost::vecS, boost::bidirectionalS, ReadNode, ReadEdge>;

/// Reads DOT back with a parser that is not ours.
ReadGraph read_dot(const std::string& text) {
    ReadGraph graph;
    boost::dynamic_properties properties(boost::ignore_other_properties);
    properties.property("node_id", boost::get(&ReadNode::id, graph));
    properties.property("label", boost::get(&ReadNode::label, graph));
    properties.property("label", boost::get(&ReadEdge::label, graph));
    REQUIRE(boost::read_graphviz(text, graph, properties));
    return graph;
}

}  // namespace

TEST_CASE("The text of a trace gives one step a line with points, wire, volts and amperes") {
    const Bench bench = lost_ground();
    const std::string text = trace_text(bench.circuit, traced(bench, "H1"));
    INFO(text);
    CHECK_THAT(text, Catch::Contains("Feed side: 1 path\n"));
    CHECK_THAT(text, Catch::Contains("1  W5"));
    CHECK_THAT(text, Catch::Contains("H1.1 -> S1.2"));
    CHECK_THAT(text, Catch::Contains("GN 1"));
    CHECK_THAT(text, Catch::Contains("12.00 V"));
    CHECK_THAT(text, Catch::Contains("900 mA"));
    CHECK_THAT(text, Catch::Contains("Back-feed: H2 carries 900 mA the wrong way"));
    CHECK_THAT(text, Catch::Contains("open in the ground it should have: W9"));
    CHECK_THAT(text, Catch::Contains("interrupted at W9"));
}

TEST_CASE("A sound plug contact needs no line, a bad one gets one") {
    Bench bench;
    bench.battery();
    bench.ground_point("E2");
    bench.part("H1", "E", {"1", "2"});
    bench.plug("H1");
    bench.element("H1", "filament", "1", "2", model::Filament{12, 21, 0.1});
    bench.wire("W1", "G1.+", "H1.1");
    bench.wire("W2", "H1.2", "E2");
    for (const char* fed : {"G1.+", "H1.1", "H1.1@part"}) bench.reads(fed, 12);
    CHECK_THAT(trace_text(bench.circuit, traced(bench, "H1")), !Catch::Contains("plug contact"));
    bench.reads("H1.1@part", 7);
    CHECK_THAT(trace_text(bench.circuit, traced(bench, "H1")), Catch::Contains("plug contact H1.1"));
}

TEST_CASE("The JSON of a trace has the paths with their steps") {
    const Bench bench = lost_ground();
    const auto json = nlohmann::json::parse(trace_json(bench.circuit, traced(bench, "H1")));
    CHECK(json["trace"] == "H1");
    CHECK(json["kind"] == "part");
    CHECK(json["to_supply"][0]["steps"][0]["name"] == "W5");
    CHECK(json["to_supply"][0]["steps"][0]["colour"] == "GN");
    CHECK(json["to_supply"][0]["end"] == "G1.+");
    CHECK(json["to_ground"][0]["interrupted"] == true);
    CHECK(json["live"]["loads"] == nlohmann::json({"H1", "H2", "H3"}));
    CHECK(json["back_feeds"][0]["load"] == "H2");
    CHECK(json["protects"].is_null());
}

TEST_CASE("DOT reads back with every node and step of the trace, quotes and all") {
    Bench bench = two_lamps();
    bench.put("S1", 1);
    bench.circuit.parts[static_cast<std::size_t>(bench.circuit.find_pin("S1.1")->part)].title =
        "the \"left\" \\ switch";
    const ReadGraph graph = read_dot(trace_dot("H1 \"left\"", all_paths(traced(bench, "H1"))));
    // W5 S1 W3 W2 F1 W1, W7 W9 E2, E1 W0
    CHECK(boost::num_edges(graph) == 11);
    CHECK(boost::num_vertices(graph) == 13);
    bool found = false;
    for (auto [edge, last] = boost::edges(graph); edge != last; ++edge)
        found = found || graph[*edge].label.find("the \"left\" \\ switch") != std::string::npos ||
                graph[*edge].label.find("the \"left\" \\\\ switch") != std::string::npos;
    CHECK(found);
}

TEST_CASE("GraphML is well-formed and keeps names that hold markup") {
    Bench bench = two_lamps();
    bench.put("S1", 1);
    bench.circuit.parts[static_cast<std::size_t>(bench.circuit.find_pin("S1.1")->part)].title =
        "<left> & \"right\"";
    const std::string text = trace_graphml(all_paths(traced(bench, "H1")));
    pugi::xml_document document;
    REQUIRE(document.load_string(text.c_str()));
    const pugi::xml_node graph = document.child("graphml").child("graph");
    int edges = 0;
    bool has_title = false;
    for (const pugi::xml_node edge : graph.children("edge")) {
        ++edges;
        for (const pugi::xml_node data : edge.children("data"))
            has_title = has_title || std::string(data.text().get()) == "S1.1-2 <left> & \"right\"";
    }
    CHECK(edges == 11);
    CHECK(has_title);
}

TEST_CASE("Drawn edges run the way current should flow, from the supply to ground") {
    Bench bench = two_lamps();
    bench.put("S1", 1);
    const ReadGraph graph = read_dot(trace_dot("H1", all_paths(traced(bench, "H1"))));
    for (auto [edge, last] = boost::edges(graph); edge != last; ++edge)
        if (graph[*edge].label.starts_with("W1\n") || graph[*edge].label.starts_with("W1\\n")) {
            CHECK_THAT(graph[boost::source(*edge, graph)].label, Catch::StartsWith("G1.+"));
            CHECK_THAT(graph[boost::target(*edge, graph)].label, Catch::StartsWith("F1.1"));
        }
}

}  // namespace halfsplit::view
