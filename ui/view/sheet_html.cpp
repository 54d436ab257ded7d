#include "ui/view/sheet_html.h"

#include <algorithm>
#include <utility>

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "ui/view/sheet_diagram.h"
#include "ui/view/sheet_style.h"
#include "ui/view/sheet_text.h"

namespace halfsplit::view {

using diagnosis::SheetRow;
using diagnosis::StateSheet;
using model::Circuit;
using xml::WrittenElement;

namespace {

constexpr const char* kBlank = "\u00a0";  // an element without text would be closed in a way HTML lacks
constexpr const char* kInvented = "invented demo vehicle";

/// An element of a class, "" for none.
WrittenElement element(const std::string& name, const std::string& kind, const std::string& text) {
    WrittenElement made{name, {}, text.empty() ? kBlank : text};
    if (!kind.empty()) made.attributes.emplace_back("class", kind);
    return made;
}

/// One that holds others.
WrittenElement holder(const std::string& name, const std::string& kind = "") {
    WrittenElement made = element(name, kind, kBlank);
    made.text.clear();
    return made;
}

WrittenElement spanning(const std::string& kind, std::size_t columns, const std::string& text) {
    WrittenElement cell = element("th", kind, text);
    cell.attributes.emplace_back("colspan", std::to_string(columns));
    return cell;
}

struct Column {
    const char* title;
    const char* width;
    const char* kind;
};

constexpr const char* kNumber = "number";

/// The widths make up what fits between the margins; the last one is to be written in.
const std::vector<Column>& columns() {
    static const std::vector<Column> all{
        {"point", "12%", "at"},     {"against", "10%", ""},       {"of", "19%", ""},
        {"wires", "11%", ""},       {"expected", "10%", kNumber}, {"limits", "13%", kNumber},
        {"fuse, ground", "9%", ""}, {"measured", "16%", ""}};
    return all;
}

std::vector<std::string> cells_of(const Circuit& circuit, const SheetRow& row) {
    const SheetCells cells = sheet_cells(circuit, row);
    std::string limits = cells.limits;
    if (!cells.allowed.empty())
        limits += (limits.empty() ? "" : "; ") + std::string("at most ") + cells.allowed;
    std::string feed = cells.fuse;
    if (!cells.ground.empty()) feed += (feed.empty() ? "" : ", ") + cells.ground;
    return {cells.at, cells.against, cells.part, cells.wires, cells.expected, limits, feed, ""};
}

WrittenElement head_row(const std::vector<Column>& columns) {
    WrittenElement row = holder("tr");
    for (const Column& column : columns) {
        WrittenElement cell = element("th", "", column.title);
        cell.attributes.emplace_back("style", std::string("width: ") + column.width);
        row.add(std::move(cell));
    }
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

WrittenElement table_row(const Circuit& circuit, const SheetRow& row) {
    WrittenElement line = holder("tr");
    const std::vector<std::string> cells = cells_of(circuit, row);
    for (std::size_t i = 0; i < cells.size(); ++i) {
        std::string kind = columns()[i].kind;
        if (i == 0 && row.kind == SheetRow::Kind::drop) kind += " drop";
        line.add(element("td", kind, cells[i]));
    }
    return line;
}

WrittenElement rows_table(const Circuit& circuit, const StateSheet& state) {
    const model::OperatingState& where = circuit.states[at(state.state)];
    WrittenElement table = holder("table", "rows");
    WrittenElement& head = table.add(holder("thead"));
    // Stands at the top of every page the table goes on to.
    WrittenElement& run = head.add(holder("tr"));
    run.add(spanning("run", columns().size(),
                     circuit.title + " (" + kInvented + "), " + where.id + ": " + where.title));
    head.add(head_row(columns()));
    WrittenElement& body = table.add(holder("tbody"));
    int place = -2;
    for (const SheetRow& row : state.rows) {
        if (row.kind == SheetRow::Kind::sign) continue;
        if (row.place != place) body.add(place_row(circuit, place = row.place));
        body.add(table_row(circuit, row));
    }
    return table;
}

/// Three beside each other: they are short.
constexpr std::size_t kSignsInARow = 3;

WrittenElement signs_table(const Circuit& circuit, const std::vector<const SheetRow*>& signs) {
    std::vector<Column> titles;
    for (std::size_t i = 0; i < kSignsInARow; ++i)
        titles.insert(titles.end(),
                      {{"look and listen", "17%", ""}, {"is", "6.3%", ""}, {"found", "10%", ""}});
    WrittenElement table = holder("table", "signs");
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

WrittenElement state_section(const Circuit& circuit, const StateSheet& state) {
    const model::OperatingState& where = circuit.states[at(state.state)];
    WrittenElement section = holder("section", "state");
    WrittenElement& heading = section.add(element("h2", "", where.title.empty() ? where.id : where.title));
    if (!where.title.empty()) heading.add(element("span", "", " (" + where.id + ")"));
    const std::vector<std::string> steps = steps_text(circuit, where);
    if (!steps.empty()) {
        WrittenElement& list = section.add(holder("ol", "steps"));
        for (const std::string& step : steps) list.add(element("li", "", step));
    }
    for (const diagnosis::SheetDoubt& doubt : state.doubts)
        section.add(element("p", "doubt", doubt_text(circuit, doubt)));
    std::vector<const SheetRow*> signs;
    for (const SheetRow& row : state.rows)
        if (row.kind == SheetRow::Kind::sign) signs.push_back(&row);
    if (!signs.empty()) section.add(signs_table(circuit, signs));
    if (signs.size() < state.rows.size()) section.add(rows_table(circuit, state));
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
    for (const char* note :
         {"Limits: where 99 of 100 sound vehicles lie by the tolerances of their parts, each limit wider by "
          "what "
          "a common multimeter (0.5 % and 2 digits, 10 Mohm) may be wrong. Voltages are against the body.",
          "A row from one point to another is a voltage drop under load; \"at most\" is what common practice "
          "allows (12 V): 200 mV for a run of wire, 300 mV for a switching contact, 100 mV for a way to "
          "ground, "
          "125 mV for a fuse with its holder. Fuses are measured on their two test points.",
          "Points are probed from the back of a connected plug. \"Fuse, ground\": the fuse that feeds the "
          "point "
          "and the ground point its current ends at, where it is one."})
        list.add(element("li", "", note));
    return list;
}

void add_diagram(const Circuit& circuit, const diagram::Selection& drawn, WrittenElement& body) {
    std::vector<DiagramPage> pages = diagram_pages(circuit, drawn);
    if (pages.empty())
        body.add(
            element("p", "notes",
                    "No diagram: " + std::to_string(drawn.parts.size()) +
                        " parts are more than paper takes. A sheet of some parts only (--only) has one."));
    for (DiagramPage& page : pages)
        body.add(holder("section", page.across ? "diagram across" : "diagram")).add(std::move(page.picture));
}

}  // namespace

std::string sheet_html(const Circuit& circuit, const diagnosis::Sheet& sheet,
                       const diagram::Selection& drawn) {
    WrittenElement page{"html", {{"lang", "en"}}};
    WrittenElement& head = page.add(holder("head"));
    head.add({"meta", {{"charset", "utf-8"}}});
    head.add(element("title", "", circuit.title + ": test sheet"));
    head.add(element("style", "", kSheetStyle));
    WrittenElement& body = page.add(holder("body"));
    body.add(element("h1", "", circuit.title + ": test sheet"));
    body.add(element("p", "sub",
                     std::string(kInvented) + ", circuit " + circuit.id + ", " +
                         number_text(circuit.nominal_v) + " V, " + std::to_string(sheet.states.size()) +
                         (sheet.states.size() == 1 ? " state" : " states")));
    body.add(form());
    body.add(cautions_box(circuit, sheet));
    if (!circuit.about.empty()) body.add(element("p", "", circuit.about));
    body.add(notes());
    add_diagram(circuit, drawn, body);
    for (const StateSheet& state : sheet.states) body.add(state_section(circuit, state));
    return "<!DOCTYPE html>\n" + xml::written(page, xml::Declaration::without);
}

}  // namespace halfsplit::view
