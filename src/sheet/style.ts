import { cssString } from './markup.ts';

export type Paper = 'A4' | 'Letter';

/** Page sizes in mm, upright. */
const PAGE_MM: Readonly<Record<Paper, { readonly w: number; readonly h: number }>> = { A4: { w: 210, h: 297 }, Letter: { w: 215.9, h: 279.4 } };
/** Clear of a printer's own margins, and at the top of the jaw of a clipboard, mm. */
const MARGIN_MM = { top: 12, side: 10, bottom: 12 } as const;
/** A heading of one line above a drawing, with what rounding may take, mm. */
const HEADING_MM = 8;

/** Room for a drawing under its heading, on a page upright or laid on its side, mm. */
export function drawingRoom(paper: Paper, lying: boolean): { readonly w: number; readonly h: number } {
  const { w, h } = PAGE_MM[paper];
  const [width, height] = lying ? [h, w] : [w, h];
  return { w: width - 2 * MARGIN_MM.side, h: height - MARGIN_MM.top - MARGIN_MM.bottom - HEADING_MM };
}

/**
 * Print rules: black on white, nothing below 8 pt, heads repeated, rows kept whole, page n of m at the foot.
 * @param footer what stands at the foot of every page
 */
export function printCss(paper: Paper, footer: string): string {
  const margin = `${MARGIN_MM.top}mm ${MARGIN_MM.side}mm ${MARGIN_MM.bottom}mm`;
  const foot = `@bottom-left { content: ${cssString(footer)}; font: 8pt sans-serif; } @bottom-right { content: "page " counter(page) " of " counter(pages); font: 8pt sans-serif; }`;
  return `
@page { size: ${paper} portrait; margin: ${margin}; ${foot} }
@page wide { size: ${paper} landscape; margin: ${margin}; ${foot} }
* { box-sizing: border-box; }
html { color: #000; background: #fff; }
body { margin: 0; overflow-wrap: break-word; font: 9pt/1.35 Helvetica, Arial, "Liberation Sans", "DejaVu Sans", sans-serif; font-variant-numeric: tabular-nums; }
h1 { font-size: 17pt; line-height: 1.2; margin: 0 0 2mm; }
h2 { font-size: 12pt; line-height: 1.2; margin: 5mm 0 1.5mm; break-after: avoid; }
h3 { font-size: 9pt; margin: 0 0 0.5mm; break-after: avoid; }
p { margin: 0 0 1.5mm; orphans: 2; widows: 2; }
h2 + p, h3 + p { break-inside: avoid; break-after: avoid; }
ul { margin: 0 0 2mm; padding-left: 4mm; }
li { margin: 0.6mm 0; break-inside: avoid; }
table { width: calc(100% - 0.3mm); border-collapse: collapse; font-size: 8.25pt; line-height: 1.25; margin-bottom: 2mm; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
th, td { border: 0.2mm solid #555; padding: 0.6mm 1mm; text-align: left; vertical-align: top; overflow-wrap: break-word; }
th { background: #fff; border-bottom: 0.5mm solid #000; font-weight: 700; vertical-align: bottom; overflow-wrap: normal; }
.n { text-align: right; white-space: nowrap; }
th.n { white-space: normal; }
.c { text-align: center; padding-left: 0; padding-right: 0; width: 7mm; }
th.c { font-size: 8pt; }
th.up { padding: 0.5mm 0; }
th.up span { display: inline-block; writing-mode: vertical-rl; transform: rotate(180deg); text-align: left; white-space: nowrap; }
table.whole { break-inside: avoid; }
.blank { min-width: 14mm; width: 14mm; }
.tick { display: inline-block; width: 5.5mm; height: 5.5mm; border: 0.4mm solid #000; vertical-align: middle; flex: none; font: 700 5mm/4.8mm sans-serif; text-align: center; }
.keep { white-space: nowrap; }
.small { font-size: 8.25pt; }
.cols { columns: 2; column-gap: 6mm; }
.end { display: flex; justify-content: space-between; gap: 2mm; }
.end span:last-child { white-space: nowrap; }
table[aria-label="Wire list"] { table-layout: fixed; }
.title th { width: 22mm; border-bottom-width: 0.2mm; vertical-align: top; }
.title td { font-size: 9pt; width: 73mm; }
.warn { border: 0.7mm solid #000; padding: 1.5mm 3mm; font-weight: 700; margin: 2mm 0; }
.sign td { height: 11mm; width: 33%; }
.level { display: inline-block; border: 0.4mm solid #000; padding: 0 1.5mm; font-weight: 700; font-size: 8.25pt; }
.level.hazard { border-width: 0.9mm; }
.card { border: 0.7mm dashed #000; padding: 3mm 4mm; max-width: 120mm; }
.card p:last-child { margin: 0; }
.step { margin-bottom: 2.5mm; }
.step.short { break-inside: avoid; }
.step p { break-inside: avoid; margin-bottom: 1mm; font-size: 8.25pt; line-height: 1.3; }
.step table { table-layout: fixed; margin: 0; }
.step td:nth-child(2) { width: 34%; }
.step td:nth-child(3) { width: 17mm; }
.step td:nth-child(4) { width: 7mm; }
.checks { list-style: none; padding: 0; margin: 0 0 3mm; }
.checks li { display: flex; gap: 2mm; margin: 0 0 1.2mm; font-size: 8.5pt; line-height: 1.3; }
.finding { break-inside: avoid; margin: 0 0 2.5mm; }
.finding p { margin-bottom: 0.8mm; }
.apart { break-inside: avoid; }
section.drawing { break-before: page; break-inside: avoid; }
section.drawing > h2 { margin: 0 0 1mm; }
section.wide { page: wide; }
/* Columns begin only where their first card fits: a heading takes room below it along to the next page. */
section.roomy > h2 { break-inside: avoid; }
section.roomy > h2::after { content: ""; display: block; height: 42mm; margin-bottom: -42mm; }
section.own { break-before: page; }
section.own > h2 { margin-top: 0; }
.write td { height: 9mm; }
.read td { height: 7.5mm; }
svg { display: block; margin: 0 auto; }
svg.mark { display: inline-block; vertical-align: middle; }
@media screen { body { margin: 0 auto; padding: 8mm; max-width: 206mm; } section.drawing { overflow-x: auto; } }
`;
}
