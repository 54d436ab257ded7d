#pragma once

namespace halfsplit::view {

/// How the page looks on a screen and on A4. Written into the page; no sign in it that XML would escape.
inline constexpr const char* kSheetStyle = R"(
@page { size: A4 portrait; margin: 11mm 12mm 13mm 12mm;
  @bottom-right { content: counter(page) " / " counter(pages); font: 8pt sans-serif; } }
@page across { size: A4 landscape; margin: 12mm; }
html { font: 8.5pt/1.25 "DejaVu Sans Condensed", "Arial Narrow", Arial, sans-serif; color: #141414; }
body { margin: 0; padding: 0 0.3mm; }
h1 { font-size: 17pt; margin: 0; }
h2 { font-size: 12pt; margin: 0 0 1mm 0; }
h2 span { font-weight: normal; color: #444; }
p, ul, ol { margin: 0 0 1.5mm 0; }
ul, ol { padding-left: 4.5mm; }
.sub { color: #444; margin-bottom: 2mm; }
.form { width: 100%; border-collapse: collapse; margin: 0 0 3mm 0; }
.form td { border: 0.25mm solid #666; padding: 0.8mm 1.2mm 5mm 1.2mm; width: 20%; font-size: 7.5pt;
  color: #444; vertical-align: top; }
.cautions { border: 0.6mm solid #141414; padding: 1.5mm 2.5mm 0.5mm 2.5mm; margin: 0 0 3mm 0; }
.cautions h2 { font-size: 10pt; }
.diagram { break-inside: avoid; margin: 0 0 3mm 0; }
.diagram svg { display: block; max-width: 100%; height: auto; }
.across { page: across; }
.state { margin-top: 5mm; border-top: 0.6mm solid #141414; padding-top: 1.5mm; }
.set-up { break-inside: avoid; break-after: avoid; }
.steps { columns: 2; column-gap: 8mm; }
.steps li { break-inside: avoid; }
.doubt { border-left: 1.2mm solid #141414; padding-left: 2mm; }
table.rows, table.signs { border-collapse: collapse; width: 100%; margin: 0 0 2.5mm 0; }
table.rows { table-layout: fixed; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
.rows th, .rows td, .signs th, .signs td { border: 0.2mm solid #888; padding: 0.5mm 1mm; text-align: left;
  vertical-align: top; overflow-wrap: break-word; }
.rows thead th, .signs thead th { background: #e6e6e6; border-color: #666; font-size: 7.5pt; }
.rows thead th.run { background: none; border: none; padding: 0 0 1mm 0; font-weight: normal; color: #444; }
.rows tr.place { break-after: avoid; }
.rows tr.place th { background: #f3f3f3; border-top: 0.4mm solid #141414; }
.rows tr.place span { font-weight: normal; color: #444; }
.rows td { height: 5.4mm; }
.rows .number { text-align: right; white-space: nowrap; }
.rows td.at { font-weight: bold; }
.rows td.drop { font-weight: normal; }
.signs { table-layout: fixed; }
.notes { font-size: 7.5pt; color: #444; }
.as-before { break-before: avoid; break-inside: avoid; }
@media screen { body { max-width: 262mm; margin: 0 auto; padding: 8mm; } }
)";

}  // namespace halfsplit::view
