#include "ui/view/sheet_html.h"

#include <algorithm>
#include <utility>

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "ui/view/html_page.h"
#include "ui/view/sheet_diagram.h"
#include "ui/view/sheet_repeats.h"
#include "ui/view/sheet_style.h"
#include "ui/view/sheet_text.h"

namespace halfsplit::view {

using diagnosis::SheetRow;
using diagnosis::StateSheet;
using model::Circuit;
using xml::WrittenElement;

namespace {

WrittenElement spanning(const std::string& kind, std::size_t columns, const std::string& text) {
    WrittenElement cell = element("th", kind, text);
    cell.attributes.emplace_back("colspan", std::to_string(columns));
    return cell;
}

struct Column {
    std::string title;
    std::string width;
    std::string kind;
};

constexpr const char* kNumber = "number";

/// The widths make up what fits between the margins; the last one is to be written in.
const std::vector<Column>& columns() {
    static const std::vector<Column> all{
        {"point", "8.5%", "at"},    {"against", "8.5%", ""},      {"of", "20%", ""},
        {"wires", "11.5%", ""},     {"expected", "9%", kNumber},  {"limits", "14%", kNumber},
        {"at most", "7%", kNumber}, {"fuse, ground", "8.5%", ""}, {"measured", "13%", ""}};
    return all;
}

std::vector<std::string> cells_of(const Circuit& circuit, const SheetRow& row) {
    const SheetCells cells = sheet_cells(circuit, row);
    std::string feed = cells.fuse;
    if (!cells.ground.empty()) feed += (feed.empty() ? "" : ", ") + cells.ground;
    const bool is_across = row.kind == SheetRow::Kind::drop && cells.against.empty();
    return {cells.at,
            is_across ? "across it" : cells.against,
            cells.part,
            cells.wires,
            cells.expected,
            cells.limits,
            cells.allowed,
            feed,
            ""};
}

WrittenElement widths(const std::vector<Column>& columns) {
    WrittenElement group = holder("colgroup");
    for (const Column& column : columns) group.add({"col", {{"style", "width: " + column.width}}});
    return group;
}

WrittenElement head_row(const std::vector<Column>& columns) {
    WrittenElement row = holder("tr");
    for (const Column& column : columns) row.add(element("th", column.kind, column.title));
    return row;
}

WrittenElement place_row(const Circuit& circuit, int place) {
    if (place < 0) {
        WrittenElement row = holder("tr", "place");
        row.add(spanning("", columns().size(), "Place not said"));
        return row;
    }
    const model::Place& where = circuit.places[at(place)];
    WrittenElement cell = spanning("", columns().size(), where.title.empty() ? where.id : where.title);
    cell.add(element("span", "", " (" + number_text(where.access_min) + " min to get at)"));
    WrittenElement row = holder("tr", "place");
    row.add(std::move(cell));
    return row;
}

/// `is_same_part`: as the row above, so its title need not be said again.
WrittenElement table_row(const Circuit& circuit, const SheetRow& row, bool is_same_part) {
    WrittenElement line = holder("tr");
    std::vector<std::string> cells = cells_of(circuit, row);
    constexpr std::size_t kPartColumn = 2;
    if (is_same_part) cells[kPartColumn].clear();
    for (std::size_t i = 0; i < cells.size(); ++i) {
        std::string kind = columns()[i].kind;
        if (i == 0 && row.kind == SheetRow::Kind::drop) kind += " drop";
        line.add(element("td", kind, cells[i]));
    }
    return line;
}

WrittenElement table_head(const Circuit& circuit, const model::OperatingState& state) {
    WrittenElement head = holder("thead");
    // Stands at the top of every page the table goes on to.
    WrittenElement& run = head.add(holder("tr"));
    run.add(spanning("run", columns().size(), circuit.title + ", " + state.id + ": " + state.title));
    head.add(head_row(columns()));
    return head;
}

WrittenElement rows_table(const Circuit& circuit, const StateSheet& state, const std::vector<int>& repeats) {
    WrittenElement table = holder("table", "rows");
    table.add(widths(columns()));
    table.add(table_head(circuit, circuit.states[at(state.state)]));
    WrittenElement& body = table.add(holder("tbody"));
    const SheetRow* above = nullptr;
    for (std::size_t i = 0; i < state.rows.size(); ++i) {
        const SheetRow& row = state.rows[i];
        if (row.kind == SheetRow::Kind::sign || repeats[i] >= 0) continue;
        const bool is_same_place = above != nullptr && above->place == row.place;
        if (!is_same_place) body.add(place_row(circuit, row.place));
        const bool is_same_part =
            is_same_place && above->part == row.part &&
            (above->practice == diagnosis::Practice::wire) == (row.practice == diagnosis::Practice::wire);
        body.add(table_row(circuit, row, is_same_part));
        above = &row;
    }
    return table;
}

/// Which points read as they do in earlier states of the sheet; "" where none does.
std::string repeats_text(const Circuit& circuit, const diagnosis::Sheet& sheet, const StateSheet& state,
                         const std::vector<int>& repeats) {
    std::string text;
    for (std::size_t earlier = 0; earlier < sheet.states.size(); ++earlier) {
        std::string points;
        for (std::size_t i = 0; i < repeats.size(); ++i)
            if (repeats[i] == static_cast<int>(earlier)) points += " " + state.rows[i].at;
        if (points.empty()) continue;
        text += text.empty() ? "Not repeated, because they read as in " : "; as in ";
        text += circuit.states[at(sheet.states[earlier].state)].id + ":" + points;
    }
    return text;
}

/// Three beside each other: they are short.
constexpr std::size_t kSignsInARow = 3;

WrittenElement signs_table(const Circuit& circuit, const std::vector<const SheetRow*>& signs) {
    std::vector<Column> titles;
    for (std::size_t i = 0; i < kSignsInARow; ++i)
        titles.insert(titles.end(),
                      {{"look and listen", "16.3%", ""}, {"should be", "9%", ""}, {"found", "8%", ""}});
    WrittenElement table = holder("table", "signs");
    table.add(widths(titles));
    table.add(holder("thead")).add(head_row(titles));
    WrittenElement& body = table.add(holder("tbody"));
    for (std::size_t first = 0; first < signs.size(); first += kSignsInARow) {
        WrittenElement& line = body.add(holder("tr"));
        for (std::size_t i = first; i < first + kSignsInARow; ++i) {
            const bool is_there = i < signs.size();
            const SheetCells cells = is_there ? sheet_cells(circuit, *signs[i]) : SheetCells{};
            line.add(element("td", "", is_there ? cells.at + " " + cells.part : ""));
            line.add(element("td", "", cells.expected));
            line.add(element("td", "", ""));
        }
    }
    return table;
}

WrittenElement state_section(const Circuit& circuit, const diagnosis::Sheet& sheet, const StateSheet& state,
                             const std::vector<int>& repeats) {
    const model::OperatingState& where = circuit.states[at(state.state)];
    WrittenElement section = holder("section", "state");
    WrittenElement& setup = section.add(holder("div", "set-up"));
    WrittenElement& heading = setup.add(element("h2", "", where.title.empty() ? where.id : where.title));
    if (!where.title.empty()) heading.add(element("span", "", " (" + where.id + ")"));
    const std::vector<std::string> steps = steps_text(circuit, where);
    if (!steps.empty()) {
        WrittenElement& list = setup.add(holder("ol", "steps"));
        for (const std::string& step : steps) list.add(element("li", "", step));
    }
    for (const diagnosis::SheetDoubt& doubt : state.doubts)
        setup.add(element("p", "doubt", doubt_text(circuit, doubt)));
    std::vector<const SheetRow*> signs;
    for (const SheetRow& row : state.rows)
        if (row.kind == SheetRow::Kind::sign) signs.push_back(&row);
    if (!signs.empty()) setup.add(signs_table(circuit, signs));
    const auto repeated =
        static_cast<std::size_t>(std::ranges::count_if(repeats, [](int each) { return each >= 0; }));
    if (signs.size() + repeated < state.rows.size()) section.add(rows_table(circuit, state, repeats));
    if (const std::string text = repeats_text(circuit, sheet, state, repeats); !text.empty())
        section.add(element("p", "notes as-before", text));
    return section;
}

WrittenElement form() {
    WrittenElement table = holder("table", "form");
    WrittenElement& row = table.add(holder("tbody")).add(holder("tr"));
    for (const char* field : {"date", "vehicle, registration", "mileage", "complaint", "name, meter used"})
        row.add(element("td", "", field));
    return table;
}

WrittenElement cautions_box(const Circuit& circuit, const diagnosis::Sheet& sheet) {
    WrittenElement box = holder("section", "cautions");
    box.add(element("h2", "", "Before you start"));
    WrittenElement& list = box.add(holder("ul"));
    for (const diagnosis::Caution& caution : sheet.cautions)
        list.add(element("li", "", caution_text(circuit, caution)));
    return box;
}

WrittenElement notes() {
    WrittenElement list = holder("ul", "notes");
    for (const char* note : {"Limits: where 99 of 100 sound vehicles lie by the tolerances of their parts, "
                             "each limit wider by what "
                             "a common multimeter (0.5 % and 2 digits, 10 Mohm) may be wrong. Points are "
                             "probed from the back of a "
                             "connected plug. \"About\": the circuit gives way more to one side than to "
                             "the other there, the limits "
                             "are a guide, and a few sound vehicles more lie outside.",
                             "A row from one point to another is a voltage drop under load. \"At most\" is "
                             "what common practice allows "
                             "in 12 V systems: 200 mV for a run of wire, 300 mV for a switching contact, 100 "
                             "mV for a way to ground, 100 mV "
                             "more for each coupling on these ways, 125 mV across a fuse with its holder (on "
                             "its two test points). In "
                             "brackets: this circuit drops more by design, the limits count.",
                             "\"Fuse, ground\": the fuse that feeds the point and the ground point its "
                             "current ends at, where it is "
                             "one. The diagram is on the last pages unless it stands here."})
        list.add(element("li", "", note));
    return list;
}

std::string no_diagram(const diagram::Selection& drawn) {
    return "No diagram: " + std::to_string(drawn.parts.size()) +
           " parts are more than paper takes. A sheet of some parts only (--only) has one.";
}

/// A picture up to here leaves room on the first page.
constexpr double kOnFirstPageMm = 140;

void add_pictures(const std::vector<DiagramPage>& pages, WrittenElement& body) {
    for (const DiagramPage& page : pages)
        body.add(holder("section", page.across ? "diagram across" : "diagram")).add(page.picture);
}

}  // namespace

std::string sheet_html(const Circuit& circuit, const diagnosis::Sheet& sheet,
                       const diagram::Selection& drawn) {
    WrittenElement body = holder("body");
    body.add(element("h1", "", circuit.title + ": test sheet"));
    body.add(element("p", "sub",
                     "circuit " + circuit.id + ", " + number_text(circuit.nominal_v) + " V, " +
                         std::to_string(sheet.states.size()) +
                         (sheet.states.size() == 1 ? " state" : " states")));
    body.add(form());
    body.add(cautions_box(circuit, sheet));
    if (!circuit.about.empty()) body.add(element("p", "", circuit.about));
    body.add(notes());
    const std::vector<DiagramPage> pages = diagram_pages(circuit, drawn);
    const bool is_small =
        pages.size() == 1 && !pages.front().across && pages.front().height_mm < kOnFirstPageMm;
    if (pages.empty()) body.add(element("p", "notes", no_diagram(drawn)));
    if (is_small) add_pictures(pages, body);
    const std::vector<std::vector<int>> repeats = repeats_in(sheet);
    for (std::size_t i = 0; i < sheet.states.size(); ++i)
        body.add(state_section(circuit, sheet, sheet.states[i], repeats[i]));
    if (!is_small) add_pictures(pages, body);
    return html_page(circuit.title + ": test sheet", kSheetStyle, std::move(body));
}

}  // namespace halfsplit::view
