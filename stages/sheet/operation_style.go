package sheet

// operationStyle is the look of operation sheets on top of [style]: text of 8 pt to read
// at arm's length, nothing below 7 pt, room to write, one page for each operation.
const operationStyle = `
.site { font-size: 8pt; line-height: 1.03; }
.site small { font-size: 7.2pt; }
.site p { margin: 0.2mm 0; }
.site h4 { font-size: 8pt; margin: 0.3mm 0; }
.site h1 { font-size: 12.5pt; margin: 0 0 0.4mm; }
.site h2 { margin: 0.7mm 0 0.1mm; }
.site table { margin: 0.3mm 0; }
.site table, .site caption, .site ul, .site ul.two, .site ol { font-size: 8pt; line-height: 1.01; }
.site td, .site th { padding: 0.2mm 0.8mm; }
.site tbody tr:first-child td { padding-top: 0.3mm; }
.site .alarm { font-size: 10pt; padding: 0.4mm 2mm; margin: 0.4mm 0; }
.site .alarm.long { font-size: 8.3pt; padding: 0.6mm 1mm; }
.site .open td { height: 4.1mm; }
.site ul, .site ol { margin: 0.1mm 0; }
.site ol { padding-left: 4.5mm; }
.site figcaption { display: none; }
.site figure { margin: 0; }
.site .hung .open td { height: 3.3mm; white-space: nowrap; border-left: 0.25pt solid #777; }
.site .hung .open th:last-child { width: 9%; }
.site .hung td, .site .hung th { padding: 0.1mm 0.6mm; }
.site .holds td:first-child { white-space: normal; width: 15%; }
.site .holds td:nth-child(3) { white-space: normal; width: 11.5%; }
.site .holds td:nth-child(4), .site .holds td:nth-child(5) { width: 10.5%; border-left: 0.25pt solid #777; }
.site .readings td:first-child { width: 19%; white-space: normal; }
.site .readings td:nth-child(3), .site .cranes td:first-child { white-space: normal; }
.site .readings .open th:last-child { width: 8%; }
.site .cranes td:first-child { width: 46%; }
.site .alike td, .site .alike th { white-space: nowrap; }
.site .alike td { border-left: 0.25pt solid #777; }
.site .room table { table-layout: fixed; }
.site .room .open th:first-child { width: 17mm; }
.site .alike .open td { height: auto; }
.site .room .open tr:nth-child(n+3) td { height: 5mm; }
.site .cranes .open td { height: auto; border-left: 0.25pt solid #777; }
.site .readings td:nth-last-child(-n+2), .site .stressing td, .site .extensions td { border-left: 0.25pt solid #777; }
.site .stressing td, .site .stressing th, .site .readings td, .site .readings th { padding: 0.2mm 0.6mm; }
.site .stressing td { white-space: nowrap; }
.site .stressing td:nth-child(2) { white-space: normal; width: 12%; }
.site .jacks table, .site .extensions table { table-layout: fixed; }
.site .jacks td { border-left: 0.25pt solid #777; }
.site .jacks td, .site .jacks th, .site .extensions td, .site .extensions th { padding: 0.2mm 0.5mm; }
.site .coil p { line-height: 4.2mm; }
.site .jacks td, .site .jacks th { padding: 0.2mm 0.3mm; }
.site .jacks .open th:first-child { width: 23%; }
.site .jacks .open th:nth-child(5n+2) { width: 9.2%; }
.site .jacks .open th:nth-child(5n+3) { width: 7.4%; }
.site .jacks .open th:nth-child(5n+4) { width: 5.9%; }
.site .jacks .open th:nth-child(5n+5) { width: 5%; }
.site .jacks .open th:nth-child(5n+6) { width: 11%; }
.site .jacks .open td:nth-child(5n+4) { white-space: nowrap; }
.site .extensions td { white-space: normal; }
.site .extensions .open th, .site .extensions .open th:nth-last-child(n) { width: auto; }
.site .extensions td, .site .extensions th { padding: 0.2mm 0.3mm; }
.site .extensions th, .site .stressing th, .site .jacks th { font-size: 7.2pt; }
.site .extensions .open th:nth-child(1):nth-last-child(n) { width: 3.3%; }
.site .extensions .open th:nth-child(2):nth-last-child(n) { width: 5%; }
.site .extensions .open th:nth-child(n+3):nth-child(-n+5):nth-last-child(n) { width: 8.7%; }
.site .extensions .open th:nth-child(8):nth-last-child(10) { width: 3.2%; }
.site .extensions .open th:nth-child(13):nth-last-child(5) { width: 6.2%; }
.site .anchors .column:last-child { flex: 0 0 70mm; }
.site .anchors .beside .beside { display: block; }
.site .read .column:last-child { flex: 0 0 90mm; }
.site .read .column:last-child svg { width: 70mm; }
.site .supports td { border-left: 0.25pt solid #777; white-space: nowrap; }
.site .supports td, .site .supports th { padding: 0.2mm 0.5mm; white-space: nowrap; }
.site .supports .open th:last-child { width: 10mm; }
.site .supports .open th:nth-last-child(2) { width: 13mm; }
.site .rows td, .site .rows th { padding: 0.1mm 0.6mm; white-space: nowrap; }
.site .gaps td { border-left: 0.25pt solid #777; }
.site .gaps table { table-layout: fixed; }
.site .gaps th { font-size: 7.2pt; padding: 0.2mm 0.4mm; }
.site .gaps .open th:nth-child(n):nth-last-child(n) { width: auto; }
.site .gaps .open th:nth-child(1):nth-last-child(n) { width: 7mm; }
.site .gaps .open th:nth-child(2):nth-last-child(n), .site .gaps .open th:nth-child(3):nth-last-child(n) { width: 13mm; }
.site .stressing ~ .readings td:first-child { white-space: nowrap; width: 1%; }
.site .blanks .open td { border-left: 0.25pt solid #777; }
.site .blanks .open td:nth-child(1) { width: 1%; }
.site .blanks .open th:last-child, .site .blanks .open th:nth-last-child(2) { width: 28%; }
.site table.form td, .site table.form th { height: 4.2mm; padding: 0.2mm 1mm; }
.site .equipment table { table-layout: fixed; }
.site .equipment .open th:nth-child(n+2):nth-last-child(n) { width: auto; }
.site .equipment .open th:first-child { width: 33%; }
.site .setup .open th:first-child:nth-last-child(n) { width: 29%; }
.site .setup .open th:nth-child(2n+3):nth-last-child(n) { width: 9.5%; }
.site .lone .open th:nth-child(3n+1):nth-last-child(n) { width: 25%; }
.site .lone .open th:nth-child(3n+2):nth-last-child(n) { width: 18.5%; }
.site .lone .open th:nth-child(3n+3):nth-last-child(n) { width: 6.5%; }
.site .setup .open td { height: 3.8mm; }
.site .equipment .open td { white-space: normal; border-left: 0.25pt solid #777; }
.site .equipment table.form th { width: 29%; white-space: normal; }
.site .equipment table.form td { width: 21%; }
.site .pictured svg { width: 84%; }
.site .positions th { font-size: 7.2pt; padding: 0.2mm 0.5mm; }
.site .positions td { height: auto; white-space: nowrap; border-left: 0.25pt solid #777; }
.site .positions .open th:nth-child(n):nth-last-child(n) { width: auto; }
.site .signed table.form td, .site .signed table.form th { height: 4.3mm; }
.site .step .holds td:first-child, .site .record .holds td:first-child { width: 21.5%; }
.site .step .holds td:nth-child(3), .site .record .holds td:nth-child(3) { width: 10%; }
.site .step .holds .open th:nth-last-child(-n+2), .site .record .holds .open th:nth-last-child(-n+2) { width: 9%; }
.site .step .holds td:nth-child(n+4), .site .record .holds td:nth-child(n+4) { width: 9%; }
.site .record .stressing td:nth-child(2) { width: 19%; }
.site .moves table { table-layout: fixed; }
.site .moves .open th:nth-child(n):nth-last-child(n) { width: auto; }
.site .moves .open th:nth-child(1):nth-last-child(n) { width: 23.5%; }
.site .moves .open th:nth-child(2):nth-last-child(n), .site .moves .open th:nth-child(3):nth-last-child(n) { width: 14%; }
.site .moves th { font-size: 7.5pt; padding: 0.2mm 0.5mm; }
.site .moves td { white-space: normal; border-left: 0.25pt solid #777; padding: 0.2mm 0.5mm; }
.site .parts .beside { gap: 2mm; }
.site .parts .column:first-child:not(:last-child) { flex: 0 0 55%; }
.site .parts table { table-layout: fixed; }
.site .parts .open th:nth-child(n):nth-last-child(n) { width: auto; }
.site .parts .open th:nth-child(1):nth-last-child(n) { width: 27%; }
.site .parts .column:last-child:not(:first-child) .open th:nth-child(1):nth-last-child(n) { width: 34%; }
.site .parts td { white-space: normal; border-left: 0.25pt solid #777; padding: 0.2mm 0.5mm; }
.site .levels td:nth-last-child(-n+3) { border-left: 0.25pt solid #777; }
.site .record .jacks .open th:first-child { width: 5%; }
.site .readends td { border-left: 0.25pt solid #777; }
.site .readends table { table-layout: fixed; }
.site .readends .open th:nth-child(n):nth-last-child(n) { width: auto; }
.site .readends .open th:nth-child(1):nth-last-child(n) { width: 4%; }
.site .readends .open th:nth-child(2):nth-last-child(n) { width: 17%; }
.site .readends .open th:nth-child(4):nth-last-child(n) { width: 11%; }
.site .readends td:nth-child(4) { white-space: nowrap; }
`
