import { cssString } from './markup.ts';

export type Paper = 'A4' | 'Letter';

/** Page sizes in mm, upright. */
const PAGE_MM: Readonly<Record<Paper, { readonly w: number; readonly h: number }>> = { A4: { w: 210, h: 297 }, Letter: { w: 215.9, h: 279.4 } };
const MARGIN_MM = { top: 12, side: 12, bottom: 15 } as const;
const HEADING_MM = 12;

/** Room for a drawing on a page laid on its side, under its heading, mm. */
export function drawingRoom(paper: Paper): { readonly w: number; readonly h: number } {
  const { w, h } = PAGE_MM[paper];
  return { w: h - 2 * MARGIN_MM.side, h: w - MARGIN_MM.top - MARGIN_MM.bottom - HEADING_MM };
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
body { margin: 0; font: 9.5pt/1.4 Helvetica, Arial, "Liberation Sans", "DejaVu Sans", sans-serif; font-variant-numeric: tabular-nums; }
h1 { font-size: 17pt; line-height: 1.2; margin: 0 0 2mm; }
h2 { font-size: 12pt; margin: 6mm 0 1.5mm; break-after: avoid; }
h3 { font-size: 9.5pt; margin: 3mm 0 0.5mm; break-after: avoid; }
p { margin: 0 0 1.5mm; }
ul { margin: 0 0 2mm; padding-left: 5mm; }
li { margin: 0.6mm 0; break-inside: avoid; }
table { width: 100%; border-collapse: collapse; font-size: 8.25pt; line-height: 1.3; margin-bottom: 2mm; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
th, td { border: 0.2mm solid #555; padding: 0.8mm 1.2mm; text-align: left; vertical-align: top; overflow-wrap: break-word; }
th { background: #fff; border-bottom: 0.5mm solid #000; font-weight: 700; vertical-align: bottom; overflow-wrap: normal; }
.n { text-align: right; white-space: nowrap; }
.c { text-align: center; }
.blank { min-width: 16mm; width: 16mm; }
.tick { display: inline-block; width: 5.5mm; height: 5.5mm; border: 0.4mm solid #000; vertical-align: middle; }
.keep { white-space: nowrap; }
.small { font-size: 8.25pt; }
.title td { font-size: 9.5pt; }
.title th { width: 34mm; border-bottom-width: 0.2mm; }
.warn { border: 0.7mm solid #000; padding: 2mm 3mm; font-weight: 700; margin: 2mm 0; }
.sign td { height: 11mm; }
.level { display: inline-block; border: 0.4mm solid #000; padding: 0 1.5mm; font-weight: 700; font-size: 8.25pt; }
.level.hazard { border-width: 0.9mm; }
.card { border: 0.7mm dashed #000; padding: 4mm; max-width: 110mm; break-inside: avoid; }
.step { break-inside: avoid; }
.step table { table-layout: fixed; }
.step th:nth-child(1) { width: 38%; }
.step th:nth-child(3) { width: 26mm; }
.step th:nth-child(4) { width: 13mm; }
.finding { break-inside: avoid; margin: 0 0 2.5mm; }
section.wide { page: wide; }
section.own { break-before: page; }
section.own > h2 { margin-top: 0; }
table[aria-label="Taps"] td { height: 9mm; }
svg { display: block; margin: 0 auto; }
@media screen { body { margin: 0 auto; padding: 8mm; max-width: 202mm; } section.wide { overflow-x: auto; } }
`;
}
