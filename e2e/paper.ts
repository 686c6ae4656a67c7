import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';

/** One page of paper as a reader of PDF files finds it. */
export interface Paper {
  readonly text: string;
  /** Page size in points, as the paper lies. */
  readonly size: readonly [width: number, height: number];
}

const READER = 'node_modules/pdfjs-dist/build/';

/** A page with a reader of PDF files, the one that is open already or a new one. */
async function readerBeside(page: Page): Promise<Page> {
  const open = page
    .context()
    .pages()
    .find((p) => p.url().endsWith('/reader/'));
  if (open) return open;
  const reader = await page.context().newPage();
  await reader.route('**/reader/**', (route) =>
    route.request().url().endsWith('.mjs')
      ? route.fulfill({ contentType: 'text/javascript', body: readFileSync(READER + new URL(route.request().url()).pathname.split('/').pop()) })
      : route.fulfill({ contentType: 'text/html', body: '<!DOCTYPE html><title>reader</title>' }),
  );
  await reader.goto('./reader/');
  return reader;
}

/** Reads a PDF with a reader that runs in a page of its own. */
export async function readPdf(page: Page, pdf: Buffer): Promise<Paper[]> {
  const reader = await readerBeside(page);
  return reader.evaluate(async (data) => {
    const address = '/reader/pdf.mjs';
    const { getDocument, GlobalWorkerOptions } = await import(address);
    GlobalWorkerOptions.workerSrc = '/reader/pdf.worker.mjs';
    const file = await getDocument({ data: Uint8Array.from(atob(data), (c) => c.charCodeAt(0)) }).promise;
    const found = [];
    for (let n = 1; n <= file.numPages; n++) {
      const sheet = await file.getPage(n);
      const items: { str: string }[] = (await sheet.getTextContent()).items;
      const { width, height } = sheet.getViewport({ scale: 1 });
      found.push({ text: items.map((i) => i.str).join(' '), size: [width, height] as const });
    }
    return found;
  }, pdf.toString('base64'));
}

/** Puts HTML on paper as the browser's print command does, and reads it back. */
export async function printed(page: Page, html: string): Promise<Paper[]> {
  const paper = await page.context().newPage();
  await paper.setContent(html);
  const pdf = await paper.pdf({ preferCSSPageSize: true, printBackground: false });
  await paper.close();
  return readPdf(page, pdf);
}

/** Page sides in points, the shorter first. */
export const sides = ({ size }: Paper): number[] => [...size].sort((a, b) => a - b).map(Math.round);

/** ISO 216: 210 x 297 mm in points of 1/72 inch. */
export const A4 = [595, 842];
/** 8.5 x 11 inch. */
export const LETTER = [612, 792];
