export { partsListCsv, wireListCsv } from './csv.ts';
export { scenePrimitives } from './drawing.ts';
export { type DrawingPage, drawingPages } from './drawingPages.ts';
export { type SheetOptions, sheetHtml } from './sheetHtml.ts';
export { svgOf } from './svg.ts';
