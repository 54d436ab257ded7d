#include "ui/view/diagram/pages/facts.h"

#include "engine/base/index.h"
#include "ui/view/diagram/crossings.h"
#include "ui/view/diagram/text_metrics.h"

namespace halfsplit::view::diagram {

Table facts_table(const std::vector<Page>& pages) {
    using Align = Table::Align;
    Table table{{{"page", Align::right},
                 {"title"},
                 {"parts", Align::right},
                 {"wires", Align::right},
                 {"crossings", Align::right},
                 {"width mm", Align::right},
                 {"height mm", Align::right},
                 {"scale", Align::right}},
                {}};
    for (std::size_t number = 0; number < pages.size(); ++number) {
        const Page& page = pages[number];
        const Diagram& diagram = page.diagram;
        const std::size_t parts = page.is_map ? diagram.symbols.size() : page.selection.parts.size();
        table.rows.push_back({std::to_string(number + 1), page.title, std::to_string(parts),
                              std::to_string(diagram.wires.size()), std::to_string(crossings(diagram)),
                              std::to_string(diagram.bounds.width() / kUnitsPerMm),
                              std::to_string(diagram.bounds.height() / kUnitsPerMm),
                              fixed(print_scale(diagram), 2)});
    }
    return table;
}

}  // namespace halfsplit::view::diagram
