#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "engine/tracing/trace.h"
#include "ui/cli/circuit_file.h"
#include "ui/cli/circuit_options.h"
#include "ui/cli/command.h"
#include "ui/view/trace_graph.h"
#include "ui/view/trace_json.h"
#include "ui/view/trace_text.h"

namespace halfsplit::cli {

namespace {

using model::Circuit;
using simulation::Settled;

struct TraceOptions {
    CircuitOptions circuit;
    std::string from;
    std::string to;
    bool as_wired = false;
    int most = tracing::PathLimits{}.most_paths;
    std::string format;

    tracing::PathLimits limits() const {
        return {as_wired ? tracing::Extent::as_wired : tracing::Extent::now, most};
    }
};

std::string heading(const Circuit& circuit, const TraceOptions& options) {
    const model::OperatingState* state = circuit.find_state(options.circuit.state);
    return circuit.title + (state == nullptr ? "" : ": " + state->title) + "\n\n";
}

std::string graph_text(const TraceOptions& options, const std::string& name,
                       const std::vector<tracing::Path>& paths) {
    return options.format == "dot" ? view::trace_dot(name, paths) : view::trace_graphml(paths);
}

int print_trace(const Circuit& circuit, const Settled& settled, const TraceOptions& options) {
    const auto trace =
        tracing::trace(circuit, settled.network, settled.point, options.from, options.limits());
    if (!trace) return complain(trace.error());
    if (options.format == "text")
        std::cout << heading(circuit, options) << view::trace_text(circuit, *trace);
    else if (options.format == "json")
        std::cout << view::trace_json(circuit, *trace) << "\n";
    else
        std::cout << graph_text(options, options.from, view::all_paths(*trace));
    return kDone;
}

int print_connection(const Circuit& circuit, const Settled& settled, const TraceOptions& options) {
    const auto found = tracing::trace_between(circuit, settled.network, settled.point, options.from,
                                              options.to, options.limits());
    if (!found) return complain(found.error());
    if (options.format == "text")
        std::cout << heading(circuit, options) << view::connection_text(circuit, *found);
    else if (options.format == "json")
        std::cout << view::connection_json(circuit, *found) << "\n";
    else
        std::cout << graph_text(options, options.from + " to " + options.to, found->paths);
    return kDone;
}

}  // namespace

void add_trace_command(CLI::App& program, int& exit_status) {
    CLI::App* command = program.add_subcommand(
        "trace", "Follow the circuit from a point, part or wire: to supply and ground, or to another thing");
    const auto options = std::make_shared<TraceOptions>();
    add_circuit_options(*command, options->circuit);
    command->add_option("from", options->from, "Where to start: M3.1, M3, W31, K2.coil")
        ->required()
        ->type_name("FROM");
    command->add_option("to", options->to, "Where to go; without, to supply and to ground")->type_name("TO");
    command->add_flag("--as-wired", options->as_wired,
                      "Through open contacts, blown fuses and torn wires too, which are marked");
    command->add_option("--most", options->most, "Paths to list on each side")
        ->check(CLI::Range(1, 10000))
        ->capture_default_str();
    add_format_option(*command, options->format, {"text", "json", "dot", "graphml"});
    command->callback([options, &exit_status] {
        exit_status =
            with_settled_circuit(options->circuit, [&](const Circuit& circuit, const Settled& settled) {
                return options->to.empty() ? print_trace(circuit, settled, *options)
                                           : print_connection(circuit, settled, *options);
            });
    });
}

}  // namespace halfsplit::cli
