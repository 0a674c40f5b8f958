package sheet

// style is the look of a sheet: black on white, body text of 8 pt, tables and captions
// of 7 pt and nothing below, A4 with room for holes on the left. Figures, rows and lines are
// not parted between pages, and heads of tables come again on each page.
const style = `
@page { size: A4; margin: 8mm 9mm 10mm 14mm; }
* { box-sizing: border-box; }
body { font: 8pt/1.2 Arial, Helvetica, "Liberation Sans", sans-serif; color: #000; background: #fff; max-width: 187mm; margin: 0 auto; font-variant-numeric: tabular-nums; }
h1 { font-size: 14pt; margin: 0 0 1.5mm; }
h2 { font-size: 10pt; margin: 2.8mm 0 0.8mm; border-bottom: 0.8pt solid #000; }
h3 { font-size: 8.8pt; margin: 2mm 0 0.7mm; }
h4 { font-size: 8pt; margin: 1.2mm 0 0.4mm; }
h1, h2, h3, h4 { break-after: avoid; break-inside: avoid; }
h2 + p, h3 + p { break-after: avoid; }
.fresh { break-before: page; }
p { margin: 0.7mm 0; break-inside: avoid; }
ul { margin: 0.5mm 0; padding-left: 4mm; }
ul.two { columns: 2; column-gap: 6mm; }
li { break-inside: avoid; }
ul.two { line-height: 1.15; }
table { border-collapse: collapse; width: 100%; font-size: 7pt; line-height: 1.08; margin: 0.6mm 0; }
caption { text-align: left; font-weight: bold; padding: 0.4mm 0; break-after: avoid; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
thead, thead tr { break-after: avoid; }
tbody tr:first-child { break-before: avoid; }
tbody tr:nth-child(2), tbody tr:last-child { break-before: avoid; }
table + p { break-before: avoid; }
th { text-align: left; vertical-align: bottom; border-top: 0.8pt solid #000; border-bottom: 0.5pt solid #000; padding: 0.15mm 0.9mm; }
td { border-bottom: 0.25pt solid #777; padding: 0.35mm 0.9mm 0.3mm; vertical-align: top; }
.right { text-align: right; }
td.right { white-space: nowrap; }
tr.worst td { font-weight: bold; }
table.form td, table.form th { border: 0.5pt solid #000; padding: 0.8mm 1.2mm; height: 5.5mm; vertical-align: middle; }
table.form th { width: 1%; white-space: nowrap; font-weight: normal; }
table.form td { font-weight: bold; width: 20%; }
.site { font-size: 8pt; line-height: 1.07; }
.site table { font-size: 7.5pt; line-height: 1.05; }
.site table.form td, .site table.form th { height: 4.6mm; padding: 0.5mm 1.2mm; }
.site .open td { height: 3.8mm; }
.open td:first-child, .open td:nth-child(3) { white-space: nowrap; }
.site p { margin: 0.4mm 0; }
.site .alarm { padding: 0.8mm 2mm; }
.site h2 { font-size: 9pt; margin: 1.2mm 0 0.4mm; border: 0; }
.open th:last-child, .open th:nth-last-child(2) { width: 11%; }
.alarm { border: 1.6pt solid #000; padding: 1.2mm 2mm; font-weight: bold; font-size: 10pt; }
.lines { columns: 2; column-gap: 5mm; font-size: 7pt; line-height: 1.15; orphans: 2; widows: 2; }
.column .lines { columns: 1; }
.lines p { margin: 0; padding-left: 2.5mm; text-indent: -2.5mm; }
.lines p.first { padding-left: 0; text-indent: 0; margin-top: 0.5mm; break-after: avoid; }
.lines p.row { padding-left: 0; text-indent: 0; }
.row span { display: inline-block; max-width: 100%; margin-right: 2.2mm; padding-left: 2mm; text-indent: -2mm; vertical-align: top; }
sub, sup { font-size: 7pt; line-height: 0; }
sub { vertical-align: -0.2em; }
sup { vertical-align: 0.4em; }
small { font-size: 7pt; }
.beside { display: flex; gap: 5mm; align-items: flex-start; break-inside: avoid; }
.beside.long { break-inside: auto; }
.column { flex: 1 1 0; min-width: 0; }
.half { flex: 0 0 calc(50% - 2.5mm); }
.small, .ledger, .short { break-inside: avoid; }
.kept { display: inline-block; width: 100%; vertical-align: top; }
.small { line-height: 1.05; }
.ledger { line-height: 1.2; }
.checks td:nth-child(6) { white-space: normal; }
.checks td, .checks th { padding-left: 0.45mm; padding-right: 0.45mm; }
.ledger { table-layout: fixed; overflow-wrap: anywhere; }
.ledger th:nth-child(1) { width: 6%; }
.ledger th:nth-child(2) { width: 33%; }
.ledger th:nth-child(3) { width: 30%; }
.ledger th:nth-child(4) { width: 12%; }
.plain th:nth-child(1) { width: 38%; }
.plain th:nth-child(2) { width: 32%; }
.plain th:nth-child(3) { width: 12%; }
.plain th:nth-child(4) { width: 18%; }
.small td, .small th { padding: 0.45mm 0.7mm 0.15mm; }
.small td { border-bottom-width: 0.2pt; border-bottom-color: #aaa; }
.dense { gap: 4mm; }
.dense table { margin: 0.4mm 0; }
.dense td, .dense th { padding: 0.3mm 0.6mm 0.25mm; }
.dense td.right { white-space: nowrap; }
.dense th { padding-top: 0.3mm; }
.dense td { border-bottom-width: 0.2pt; border-bottom-color: #aaa; }
tbody tr:first-child td { padding-top: 0.6mm; }
figure { margin: 0.6mm 0; break-inside: avoid; }
figure svg { display: block; width: 100%; height: auto; }
figcaption { font-size: 7pt; }
.foot { font-size: 7pt; border-top: 0.5pt solid #000; margin-top: 3mm; }
@media screen { body { padding: 5mm 0; } }
@media print { .foot { display: none; } }
`

// footStyle stands at the foot of each printed page; %s is its text.
const footStyle = `@page { @bottom-left { content: "%s"; font: 7pt Arial, Helvetica, sans-serif; } @bottom-right { content: "page " counter(page) " of " counter(pages); font: 7pt Arial, Helvetica, sans-serif; } }
`

// partStyle gives a part of a document its own pages and foot; %[1]s is its name.
const partStyle = `.%[1]s { page: %[1]s; }
@page %[1]s { @bottom-left { content: "%[2]s"; font: 7pt Arial, Helvetica, sans-serif; } }
`
