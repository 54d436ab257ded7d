#include "ui/view/html_page.h"

#include <utility>

#include "ui/view/unit_signs.h"

namespace halfsplit::view {

using xml::WrittenElement;

namespace {

constexpr const char* kNoText = "\u00a0";  // an element without text would be closed in a way HTML lacks

WrittenElement row_of(const char* cell, const std::vector<std::string>& texts,
                      const std::vector<bool>& is_number) {
    WrittenElement row = holder("tr");
    for (std::size_t i = 0; i < texts.size(); ++i)
        row.add(element(cell, i < is_number.size() && is_number[i] ? "number" : "", texts[i]));
    return row;
}

}  // namespace

const char* const kReportStyle = R"(
@page { size: A4 portrait; margin: 12mm; }
html { font: 10pt/1.35 "DejaVu Sans", Arial, sans-serif; color: #141414; }
body { margin: 0 auto; padding: 4mm; max-width: 190mm; }
h1 { font-size: 17pt; margin: 0 0 1mm 0; }
h2 { font-size: 12pt; margin: 6mm 0 1.5mm 0; border-top: 0.5mm solid #141414; padding-top: 1.5mm; }
p, ul { margin: 0 0 2mm 0; }
.sub { color: #444; }
.verdict { border: 0.6mm solid #141414; padding: 2mm 3mm; font-size: 11.5pt; }
table { border-collapse: collapse; width: 100%; margin: 0 0 3mm 0; font-size: 8.5pt; }
th, td { border: 0.2mm solid #888; padding: 0.7mm 1.2mm; text-align: left; vertical-align: top;
  overflow-wrap: break-word; }
thead th { background: #e6e6e6; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
.number { text-align: right; }
td.number { white-space: nowrap; }
table.steps { table-layout: fixed; }
.steps th:nth-child(1) { width: 10%; }
.steps th:nth-child(2) { width: 22%; }
.steps th:nth-child(3) { width: 30%; }
.steps th:nth-child(4) { width: 9%; }
figure { margin: 0 0 4mm 0; break-inside: avoid; }
figcaption { color: #444; font-size: 8.5pt; }
svg { display: block; width: 100%; height: auto; }
svg text { font: 3.2px "DejaVu Sans", Arial, sans-serif; fill: #141414; }
)";

WrittenElement element(const std::string& name, const std::string& kind, const std::string& text) {
    WrittenElement made{name, {}, text.empty() ? kNoText : with_unit_signs(text)};
    if (!kind.empty()) made.attributes.emplace_back("class", kind);
    return made;
}

WrittenElement holder(const std::string& name, const std::string& kind) {
    WrittenElement made = element(name, kind, kNoText);
    made.text.clear();
    return made;
}

WrittenElement html_table(const std::string& kind, const std::vector<std::string>& headings,
                          const std::vector<std::vector<std::string>>& rows,
                          const std::vector<bool>& is_number) {
    WrittenElement table = holder("table", kind);
    table.add(holder("thead")).add(row_of("th", headings, is_number));
    WrittenElement& body = table.add(holder("tbody"));
    for (const auto& row : rows) body.add(row_of("td", row, is_number));
    return table;
}

std::string html_page(const std::string& title, const std::string& style, WrittenElement body) {
    WrittenElement page{"html", {{"lang", "en"}}};
    WrittenElement& head = page.add(holder("head"));
    head.add({"meta", {{"charset", "utf-8"}}});
    head.add({"meta", {{"name", "viewport"}, {"content", "width=device-width"}}});
    head.add(element("title", "", title));
    head.add(element("style", "", style));
    page.add(std::move(body));
    return "<!DOCTYPE html>\n" + xml::written(page, xml::Declaration::without);
}

}  // namespace halfsplit::view
