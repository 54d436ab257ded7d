#include <CLI/CLI.hpp>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/nearest.h"
#include "ui/cli/circuit_file.h"
#include "ui/cli/command.h"
#include "ui/view/diagram/draw.h"
#include "ui/view/diagram/layout.h"
#include "ui/view/diagram/pages/facts.h"
#include "ui/view/diagram/pages/pages.h"
#include "ui/view/diagram/svg_canvas.h"

namespace halfsplit::cli {

namespace {

struct DiagramOptions {
    std::string file;
    std::string output;
    std::vector<std::string> only;
    std::string page;
    bool map = false;
    bool facts = false;
};

std::string svg_of(const view::diagram::Diagram& diagram) {
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

/// By its number or its title.
const view::diagram::Page* find_page(const std::vector<view::diagram::Page>& pages,
                                     const std::string& asked) {
    for (std::size_t page = 0; page < pages.size(); ++page)
        if (asked == std::to_string(page + 1) || asked == pages[page].title) return &pages[page];
    return nullptr;
}

int draw_page(const model::Circuit& circuit, const DiagramOptions& options) {
    const std::vector<view::diagram::Page> pages = view::diagram::pages_of(circuit);
    if (const view::diagram::Page* page = find_page(pages, options.page))
        return write_out(svg_of(page->diagram), options.output);
    std::vector<std::string_view> known;
    known.reserve(pages.size());
    for (const view::diagram::Page& page : pages) known.emplace_back(page.title);
    return complain("no page '" + options.page + "' in this circuit, which has 1 to " +
                    std::to_string(pages.size()) + did_you_mean(options.page, known));
}

int draw_circuit(const DiagramOptions& options) {
    const auto circuit = read_circuit_file(options.file);
    if (!circuit) {
        print(circuit.error());
        return kAnswerIsNo;
    }
    if (const std::string problem = missing_part(*circuit, options.only); !problem.empty())
        return complain(problem);
    if (options.facts)
        return write_out(view::aligned_text(view::diagram::facts_table(view::diagram::pages_of(*circuit))),
                         options.output);
    if (options.map) return write_out(svg_of(view::diagram::map_of(*circuit).diagram), options.output);
    if (!options.page.empty()) return draw_page(*circuit, options);
    const view::diagram::Selection drawn = options.only.empty()
                                               ? view::diagram::everything(*circuit)
                                               : view::diagram::ways_of(*circuit, options.only);
    return write_out(svg_of(view::diagram::lay_out(*circuit, drawn)), options.output);
}

}  // namespace

void add_diagram_command(CLI::App& program, int& exit_status) {
    CLI::App* command = program.add_subcommand("diagram", "Draw the circuit diagram as an SVG picture");
    const auto options = std::make_shared<DiagramOptions>();
    command->add_option("circuit", options->file, "Circuit file")->required()->type_name("CIRCUIT");
    command->add_option("-o,--output", options->output, "Where to write it; without, to standard output")
        ->type_name("FILE.svg");
    CLI::Option* only = command
                            ->add_option("--only", options->only,
                                         "Only these parts, with all on their ways to supply and ground")
                            ->type_name("PART");
    CLI::Option* page = command
                            ->add_option("--page", options->page,
                                         "One page of a circuit that has several, by number or title")
                            ->type_name("PAGE");
    CLI::Option* map = command->add_flag(
        "--map", options->map, "Feeds and grounds: each fuse and ground point with what hangs on it");
    CLI::Option* facts = command->add_flag(
        "--facts", options->facts, "Not the picture, but a line a page: parts, wires, crossings, size");
    only->excludes(page)->excludes(map)->excludes(facts);
    page->excludes(map)->excludes(facts);
    map->excludes(facts);
    command->callback([options, &exit_status] { exit_status = draw_circuit(*options); });
}

}  // namespace halfsplit::cli
