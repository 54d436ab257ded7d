#include "ui/view/diagram/pages/page_cut.h"

#include <cctype>
#include <map>
#include <set>

#include "engine/base/index.h"
#include "ui/view/diagram/bands.h"
#include "ui/view/diagram/shape.h"
#include "ui/view/diagram/text_metrics.h"

namespace halfsplit::view::diagram {

namespace {

/// Up to here a circuit is drawn in one, in bands if it has to be.
constexpr std::size_t kMostPartsOnOnePage = 150;
/// Of a page of the circuit's own: what one band across A4 takes (of 16, 22 and 30 the fewest crossings on
/// the van).
constexpr int kPageSlots = 22;
/// Names in a title of a page.
constexpr std::size_t kMostNamed = 3;

/// "circuits/rear-window-heater.circuit.xml" -> "Rear window heater".
std::string name_of(const std::string& file) {
    const std::size_t slash = file.find_last_of('/');
    std::string name = slash == std::string::npos ? file : file.substr(slash + 1);
    name.resize(std::min(name.size(), name.find('.')));
    for (char& letter : name)
        if (letter == '-') letter = ' ';
    if (!name.empty()) name[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(name[0])));
    return name;
}

/// These wires, and what they and the parts named end on.
Selection selection_of(const model::Circuit& circuit, std::set<int> parts, std::vector<int> wires) {
    for (const int wire : wires) {
        parts.insert(circuit.wires[at(wire)].from.part);
        parts.insert(circuit.wires[at(wire)].to.part);
    }
    return {{parts.begin(), parts.end()}, std::move(wires)};
}

/// What a file itself holds. Parts that several files share are the including file's.
Selection of_file(const model::Circuit& circuit, const std::string& file) {
    std::set<int> parts;
    for (int part = 0; part < static_cast<int>(circuit.parts.size()); ++part)
        if (circuit.parts[at(part)].where.file == file) parts.insert(part);
    std::vector<int> wires;
    for (int wire = 0; wire < static_cast<int>(circuit.wires.size()); ++wire)
        if (circuit.wires[at(wire)].where.file == file) wires.push_back(wire);
    return selection_of(circuit, std::move(parts), std::move(wires));
}

bool is_protection(const model::Part& part) {
    return part.kind->letter == "F";
}

/// What the fuses on it are for is what the page is about.
std::string name_by_fuses(const model::Circuit& circuit, const Selection& selection) {
    std::string name;
    std::size_t named = 0;
    for (const int part : selection.parts) {
        const model::Part& each = circuit.parts[at(part)];
        if (!is_protection(each)) continue;
        if (++named > kMostNamed) return name + " and more";
        name += (name.empty() ? "" : ", ") + each.title;
    }
    return name.empty() ? circuit.title : name;
}

/// Drawn with a band of its own each.
std::vector<PageCut> filled_pages(const model::Circuit& circuit, const Selection& own,
                                  const Heights& heights) {
    std::vector<PageCut> pages;
    for (const Sheet& sheet : bands_of(circuit, sheet_of(circuit, own, heights), heights, kPageSlots)) {
        std::set<int> parts;
        for (const Piece& piece : sheet.pieces) parts.insert(piece.part);
        std::set<int> wires;
        for (const Lead& lead : sheet.leads)
            if (lead.wire >= 0) wires.insert(lead.wire);
        Selection selection = selection_of(circuit, std::move(parts), {wires.begin(), wires.end()});
        pages.push_back({name_by_fuses(circuit, selection), std::move(selection)});
    }
    return pages;
}

/// Parts that are on none of the pages though they have wires nowhere, or nowhere here.
void add_left_over(const model::Circuit& circuit, std::vector<PageCut>& pages) {
    std::set<int> shown;
    for (const PageCut& page : pages) shown.insert(page.selection.parts.begin(), page.selection.parts.end());
    std::set<int> parts(pages.front().selection.parts.begin(), pages.front().selection.parts.end());
    for (int part = 0; part < static_cast<int>(circuit.parts.size()); ++part)
        if (!shown.contains(part)) parts.insert(part);
    pages.front().selection.parts.assign(parts.begin(), parts.end());
}

}  // namespace

std::vector<PageCut> cut_into_pages(const model::Circuit& circuit, const Heights& heights) {
    if (circuit.files.size() < 2 || circuit.parts.size() <= kMostPartsOnOnePage)
        return {{circuit.title, everything(circuit)}};
    std::vector<PageCut> pages = filled_pages(circuit, of_file(circuit, circuit.files.front()), heights);
    for (std::size_t file = 1; file < circuit.files.size(); ++file) {
        Selection selection = of_file(circuit, circuit.files[file]);
        if (!selection.wires.empty()) pages.push_back({name_of(circuit.files[file]), std::move(selection)});
    }
    add_left_over(circuit, pages);
    return pages;
}

}  // namespace halfsplit::view::diagram
