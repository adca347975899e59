/** How a record looks on screen and on paper: warm paper, thin ink, nothing that needs colour to be read. */

/** A CSS string: whatever is no plain letter, digit, space, comma or point is written as its code point. */
const cssString = (text: string): string =>
  `"${text.replace(/[^A-Za-z0-9 ,.]/gu, (each) => `\\${(each.codePointAt(0) ?? 32).toString(16)} `)}"`

/** The style sheet of a record. `foot` becomes the text at the foot of each printed page, escaped for CSS. */
export const recordStyle = (foot: string): string => `
:root { color-scheme: light; }
* { box-sizing: border-box; }
html { background: #efe9dd; }
body {
  margin: 0 auto; padding: 32px 40px 48px; max-width: 820px; background: #fbf8f1; color: #2b2a27;
  font: 15px/1.5 "Atkinson Hyperlegible Next", "Segoe UI", "Helvetica Neue", Arial, sans-serif;
  overflow-wrap: break-word;
}
header { display: flow-root; border-bottom: 2px solid #2b2a27; padding-bottom: 12px; margin-bottom: 8px; }
figure.code { float: right; width: 112px; margin: 0 0 8px 20px; text-align: center; }
figure.code img { width: 112px; height: 112px; border: 0; background: #fff; }
figure.code figcaption { margin: 2px 0 0; color: #2b2a27; font: 700 16px/1.2 "Courier New", monospace; letter-spacing: 0.04em; }
h1 { font-size: 26px; line-height: 1.2; margin: 0; font-weight: 700; }
h2 { font-size: 17px; margin: 26px 0 8px; padding-bottom: 3px; border-bottom: 1px solid #b8ad98; }
p { margin: 6px 0; }
.under { margin: 4px 0 12px; color: #5c564c; }
dl { display: grid; grid-template-columns: minmax(110px, max-content) minmax(0, 1fr); gap: 2px 18px; margin: 8px 0; }
header dl { grid-template-columns: repeat(auto-fit, minmax(130px, 1fr)); gap: 10px 18px; }
header dl div { display: grid; }
header dd { font-weight: 650; }
dt { color: #5c564c; }
dd { margin: 0; white-space: pre-line; }
ul { margin: 6px 0; padding-left: 20px; }
li { margin: 3px 0; }
table { width: 100%; border-collapse: collapse; margin: 12px 0; font-size: 13px; line-height: 1.4; font-variant-numeric: tabular-nums; }
caption { text-align: left; font-weight: 650; padding-bottom: 4px; font-size: 14px; }
th, td { text-align: left; vertical-align: top; padding: 4px 12px 4px 0; border-bottom: 1px solid #d8cfbd; font-weight: 400; white-space: pre-line; }
thead th { color: #5c564c; border-bottom: 1px solid #8a8172; }
tbody th { font-weight: 600; }
tfoot th, tfoot td { font-weight: 700; border-bottom: 0; }
th.number, td.number { text-align: right; }
th.number:last-child, td.number:last-child { padding-right: 0; }
td.number + td:not(.number), th.number + td:not(.number), th.number + th:not(.number) { padding-left: 12px; }
blockquote { margin: 10px 0; padding: 2px 0 2px 14px; border-left: 3px solid #b8ad98; white-space: pre-line; }
blockquote footer { color: #5c564c; font-size: 13px; }
.cautions { margin: 12px 0; padding: 10px 14px; border: 1px solid #2b2a27; border-left-width: 6px; }
.cautions strong { display: block; }
.pictures { display: flex; flex-wrap: wrap; gap: 14px; margin: 14px 0; }
figure { flex: 1 1 300px; min-width: 0; margin: 0; }
figure.photo { flex: 0 1 230px; }
figure img { display: block; width: 100%; height: auto; border: 1px solid #d8cfbd; background: #f6f1e7; }
figcaption { font-size: 13px; color: #5c564c; margin-top: 4px; }
@media (max-width: 560px) { body { padding: 20px 16px 32px; } }
@page {
  size: A4; margin: 16mm 16mm 20mm;
  @bottom-left { content: ${cssString(foot)}; font: 9pt Arial, sans-serif; color: #5c564c; }
  @bottom-right { content: counter(page) " of " counter(pages); font: 9pt Arial, sans-serif; color: #5c564c; }
}
@media print {
  html, body { background: none; }
  body { max-width: none; padding: 0; font-size: 10.5pt; }
  table { font-size: 9pt; }
  h1, h2, caption, .cautions strong { break-after: avoid; }
  /* a heading keeps room for what follows it: a table's caption and first rows are not held by break-after alone */
  figure:only-child:not(.photo, .wide) { flex: 0 1 62%; }
  h2 { break-inside: avoid; border-bottom: 0; }
  h2::after { content: ""; display: block; height: 110px; margin-bottom: -110px; border-top: 1px solid #b8ad98; }
  thead { display: table-header-group; }
  tfoot { display: table-row-group; }
  tr, figure, caption, blockquote, .cautions li, .pictures { break-inside: avoid; }
  tbody tr:last-child:not(:first-child), tfoot tr { break-before: avoid; }
  p, li, blockquote { orphans: 3; widows: 3; }
}
`
