#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "engine/base/nearest.h"
#include "engine/model/manual.h"
#include "engine/model/part_kind.h"
#include "engine/model/schema.h"
#include "ui/cli/command.h"
#include "ui/view/table.h"

namespace halfsplit::cli {

namespace {

int list_kinds() {
    view::Table table;
    table.columns = {{"element"}, {"class"}, {"is"}, {"what it does"}};
    for (const model::PartKind* kind : model::part_kinds())
        table.rows.push_back({std::string(kind->element), std::string(kind->letter), std::string(kind->title),
                              std::string(kind->text)});
    std::cout << view::aligned_text(table) << "\nMore on one: halfsplit parts ELEMENT\n";
    return kDone;
}

int describe(const std::string& element) {
    const model::PartKind* kind = element == "wire" ? &model::wire_kind() : model::find_part_kind(element);
    if (kind == nullptr) {
        std::vector<std::string> known{"wire"};
        for (const model::PartKind* each : model::part_kinds()) known.emplace_back(each->element);
        std::cerr << "error: there is no kind of part '" << element << "'" << did_you_mean(element, known)
                  << "\n";
        return kUsage;
    }
    std::cout << model::part_manual(*kind);
    return kDone;
}

}  // namespace

void add_parts_command(CLI::App& program, int& exit_status) {
    CLI::App* command = program.add_subcommand(
        "parts", "The kinds of parts a circuit may have: attributes, defaults, ranges, faults");
    struct Options {
        std::string element;
        bool schema = false;
        bool manual = false;
    };
    const auto options = std::make_shared<Options>();
    command->add_option("element", options->element, "One kind, by its XML element")->type_name("ELEMENT");
    command->add_flag("--schema", options->schema, "Print circuits/circuit.xsd");
    command->add_flag("--manual", options->manual, "Print circuits/PARTS.md, the whole reference");
    command->callback([options, &exit_status] {
        exit_status = kDone;
        if (options->schema)
            std::cout << model::circuit_schema();
        else if (options->manual)
            std::cout << model::parts_manual();
        else
            exit_status = options->element.empty() ? list_kinds() : describe(options->element);
    });
}

}  // namespace halfsplit::cli
