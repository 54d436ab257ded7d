#include "ui/view/trace_graph.h"

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/graphml.hpp>
#include <boost/graph/graphviz.hpp>
#include <cmath>
#include <map>
#include <set>
#include <sstream>

#include "engine/base/number.h"
#include "ui/view/table.h"

namespace halfsplit::view {

using tracing::Path;
using tracing::Step;

namespace {

struct DrawnNode {
    std::string label;
    std::string place;
    double potential_v = 0;
};

struct DrawnStep {
    std::string label;
    std::string role;
    std::string colour;
    double area_mm2 = 0;
    double current_a = 0;
    bool conducts = true;
};

/// Directed the way current should flow, so that drawings run from supply to ground.
using Drawn = boost::adjacency_list<boost::vecS, boost::vecS, boost::bidirectionalS, DrawnNode, DrawnStep>;

class Drawing {
  public:
    Drawn of(const std::vector<Path>& paths) {
        for (const Path& path : paths)
            for (const Step& step : path.steps)
                if (drawn_.insert(step.branch).second) add(step, path.against_current);
        return graph_;
    }

  private:
    void add(const Step& step, bool reversed) {
        auto from = node(step.from_node, step.from, step.from_place, step.from_v);
        auto to = node(step.to_node, step.to, step.to_place, step.to_v);
        if (reversed) std::swap(from, to);
        boost::add_edge(from, to,
                        DrawnStep{step.title.empty() ? step.name : step.name + " " + step.title,
                                  std::string(tracing::role_name(step.role)), step.colour, step.area_mm2,
                                  step.current_a, step.conducts},
                        graph_);
    }

    Drawn::vertex_descriptor node(int node, const std::string& label, const std::string& place, double v) {
        const auto [found, is_new] = vertices_.try_emplace(node, 0);
        if (is_new)
            found->second =
                boost::add_vertex(DrawnNode{label, node == network::kBody ? "" : place, v}, graph_);
        return found->second;
    }

    Drawn graph_;
    std::set<int> drawn_;
    std::map<int, Drawn::vertex_descriptor> vertices_;
};

std::string dot_string(const std::string& text) {
    std::string escaped = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') escaped += '\\';
        if (c == '\n')
            escaped += "\\n";
        else
            escaped += c;
    }
    return escaped + "\"";
}

std::string node_attributes(const DrawnNode& node) {
    std::string label = node.label + "\n" + volts_text(node.potential_v);
    if (!node.place.empty()) label += "\n" + node.place;
    return "[label=" + dot_string(label) + ", shape=box]";
}

std::string step_attributes(const DrawnStep& step) {
    std::string label = step.label;
    if (!step.colour.empty()) label += "\n" + step.colour;
    if (step.area_mm2 > 0) label += (step.colour.empty() ? "\n" : " ") + number_text(step.area_mm2);
    label += "\n" + (step.conducts ? amperes_text(std::abs(step.current_a)) : "open");
    std::string attributes = "[label=" + dot_string(label);
    if (!step.conducts) attributes += ", style=dashed";
    if (std::abs(step.current_a) > tracing::kNoCurrentA) attributes += ", penwidth=2";
    return attributes + "]";
}

}  // namespace

std::vector<Path> all_paths(const tracing::Trace& trace) {
    std::vector<Path> paths;
    // The live path first: a branch is drawn once, and current should run the way it flows.
    if (trace.live) paths.push_back(*trace.live);
    for (const tracing::BackFeed& back_feed : trace.back_feeds) paths.push_back(back_feed.route);
    for (const std::vector<Path>* some : {&trace.sides.to_supply, &trace.sides.to_ground, &trace.body_return})
        paths.insert(paths.end(), some->begin(), some->end());
    return paths;
}

std::string trace_dot(const std::string& name, const std::vector<Path>& paths) {
    const Drawn graph = Drawing().of(paths);
    std::ostringstream out;
    boost::write_graphviz(
        out, graph, [&](std::ostream& to, auto vertex) { to << node_attributes(graph[vertex]); },
        [&](std::ostream& to, auto edge) { to << step_attributes(graph[edge]); },
        [&](std::ostream& to) { to << "label=" << dot_string(name) << ";\n"; });
    return out.str();
}

std::string trace_graphml(const std::vector<Path>& paths) {
    Drawn graph = Drawing().of(paths);
    boost::dynamic_properties properties;
    properties.property("label", boost::get(&DrawnNode::label, graph));
    properties.property("place", boost::get(&DrawnNode::place, graph));
    properties.property("potential_v", boost::get(&DrawnNode::potential_v, graph));
    properties.property("label", boost::get(&DrawnStep::label, graph));
    properties.property("role", boost::get(&DrawnStep::role, graph));
    properties.property("colour", boost::get(&DrawnStep::colour, graph));
    properties.property("area_mm2", boost::get(&DrawnStep::area_mm2, graph));
    properties.property("current_a", boost::get(&DrawnStep::current_a, graph));
    properties.property("conducts", boost::get(&DrawnStep::conducts, graph));
    std::ostringstream out;
    boost::write_graphml(out, graph, properties, true);
    return out.str();
}

}  // namespace halfsplit::view
