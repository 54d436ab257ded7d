#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/nearest.h"
#include "ui/cli/circuit_file.h"
#include "ui/cli/command.h"
#include "ui/view/diagram/draw.h"
#include "ui/view/diagram/layout.h"
#include "ui/view/diagram/svg_canvas.h"

namespace halfsplit::cli {

namespace {

struct DiagramOptions {
    std::string file;
    std::string output;
    std::vector<std::string> only;
};

std::string svg_of(const model::Circuit& circuit, const view::diagram::Selection& selection) {
    const view::diagram::Diagram diagram = view::diagram::lay_out(circuit, selection);
    view::diagram::SvgCanvas canvas(diagram.bounds, diagram.title, view::diagram::print_scale(diagram));
    view::diagram::draw(diagram, canvas);
    return xml::written(canvas.picture());
}

/// The first of the parts asked for that the circuit does not have, with the nearest it has.
std::string missing_part(const model::Circuit& circuit, const std::vector<std::string>& ids) {
    std::vector<std::string_view> known;
    for (const model::Part& part : circuit.parts) known.emplace_back(part.id);
    for (const std::string& id : ids)
        if (circuit.find_part(id) == nullptr)
            return "no part '" + id + "' in this circuit" + did_you_mean(id, known);
    return "";
}

int draw_circuit(const DiagramOptions& options) {
    const auto circuit = read_circuit_file(options.file);
    if (!circuit) {
        print(circuit.error());
        return kAnswerIsNo;
    }
    if (const std::string problem = missing_part(*circuit, options.only); !problem.empty()) {
        std::cerr << "halfsplit: " << problem << "\n";
        return kUsage;
    }
    const std::string svg =
        svg_of(*circuit, options.only.empty() ? view::diagram::everything(*circuit)
                                              : view::diagram::ways_of(*circuit, options.only));
    return write_out(svg, options.output);
}

}  // namespace

void add_diagram_command(CLI::App& program, int& exit_status) {
    CLI::App* command = program.add_subcommand("diagram", "Draw the circuit diagram as an SVG picture");
    const auto options = std::make_shared<DiagramOptions>();
    command->add_option("circuit", options->file, "Circuit file")->required()->type_name("CIRCUIT");
    command->add_option("-o,--output", options->output, "Where to write it; without, to standard output")
        ->type_name("FILE.svg");
    command
        ->add_option("--only", options->only, "Only these parts, with all on their ways to supply and ground")
        ->type_name("PART");
    command->callback([options, &exit_status] { exit_status = draw_circuit(*options); });
}

}  // namespace halfsplit::cli
