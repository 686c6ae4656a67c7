export { partsListCsv, wireListCsv } from './csv.ts';
export { type DrawingPage, drawingPages, scenePrimitives } from './drawing.ts';
export { type SheetOptions, sheetHtml } from './sheetHtml.ts';
export { svgOf } from './svg.ts';
