import { wholeReport } from '../advise/report.ts';
import { changesSince, isUnchanged, type Since } from '../advise/since.ts';
import type { Results } from '../advise/types.ts';
import type { Primitive } from '../drawing/types.ts';
import { buildScene } from '../scene/buildScene.ts';
import type { Scene } from '../scene/types.ts';
import type { Step } from './bringUp/steps.ts';
import { bringUp } from './bringUp/steps.ts';
import { checklistGroups } from './checklist.ts';
import { type Context, contextOf } from './context.ts';
import { drawingPages } from './drawingPages.ts';
import type { LengthUnit } from './figures.ts';
import { bareTable, type Html, h, raw, section, TICK } from './markup.ts';
import { overview } from './overview.ts';
import { placedForPaper } from './paperPlaces.ts';
import { changedDrawing, changesSection, narrowed } from './sheetChanges.ts';
import { findingsSections } from './sheetFindings.ts';
import { frontPage } from './sheetFront.ts';
import { keySection } from './sheetKey.ts';
import { fuseSection, partsSection, pinSections, tapSection, wireSection } from './sheetLists.ts';
import { leavingSections } from './sheetUndo.ts';
import { drawingRoom, type Paper, printCss } from './style.ts';
import { type SheetTime, timingSection } from './timing.ts';

export interface SheetOptions {
  readonly paper: Paper;
  /** As it is to be printed, e.g. `2025-03-04`. */
  readonly date: string;
  /** Who planned it. */
  readonly who?: string;
  /** Unit of lengths; default m. */
  readonly lengths?: LengthUnit;
  /** One turn of the key, when it has been worked out. */
  readonly time?: SheetTime;
  /** Number of a revision: only what changed since then is listed and stands out on the drawing. Default: everything. */
  readonly since?: number;
}

/**
 * The wiring sheet: a whole HTML document that stands alone (no script, nothing to fetch) and prints on A4 or Letter.
 * Pure: the same results and options give the same text.
 */
export function sheetHtml(results: Results, options: SheetOptions): string {
  const context = contextOf({ ...results, report: wholeReport(results.report) });
  const title = context.plan.title || 'Untitled plan';
  const unit = options.lengths ?? 'm';
  const since = options.since === undefined ? null : changesSince(context.plan, options.since);
  const drawn = drawing(context, options.paper, since);
  const body = since
    ? changedBody(context, since, title, options, drawn.pages, unit)
    : [
        frontPage(context, title, options, drawn.overview),
        ...drawn.pages,
        wireSection(context, unit),
        tapSection(context),
        fuseSection(context, unit),
        keySection(context),
        ...(options.time ? [timingSection(context, options.time)] : []),
        ...pinSections(context),
        partsSection(context, unit),
        tests(bringUp(context)),
        checklist(context),
        ...findingsSections(context.results),
        ...leavingSections(context),
      ];
  return h`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${`Wiring sheet: ${title}`}</title>
<style>${raw(printCss(options.paper, `${title}, ${options.date}`))}</style>
</head>
<body>
<main>
${body}</main>
</body>
</html>
`.html;
}

/** What to do since a revision: the changes, the drawing with marks, and the lists of what is new or changed. */
function changedBody(context: Context, since: Since, title: string, options: SheetOptions, pages: readonly Html[], unit: LengthUnit): Html[] {
  const only = narrowed(context, since);
  return [
    frontPage(context, title, options, raw('')),
    changesSection(context, since),
    ...(isUnchanged(since) ? [] : pages),
    wireSection(only, unit),
    partsSection(only, unit),
    ...findingsSections(context.results),
  ];
}

/** What stands on the first page above and below the overview, mm; a line of the plan's note comes on top. */
const FRONT_MM = 168;
const NOTE_LINE_MM = 4.4;
const NOTE_LINE_LETTERS = 110;
/** Smaller than this the overview shows nothing; larger it shows nothing more, mm. */
const OVERVIEW_MM = { least: 60, most: 105 } as const;

/** Height that is left for the overview, so that the cautions do not slip off the first page, mm. */
function overviewMm(context: Context, pageMm: number): number {
  const left = pageMm - FRONT_MM - NOTE_LINE_MM * Math.ceil(context.plan.note.length / NOTE_LINE_LETTERS);
  return Math.min(OVERVIEW_MM.most, Math.max(OVERVIEW_MM.least, left));
}

/** The drawing's pages, and an overview when there are several. */
function drawing(context: Context, paper: Paper, since: Since | null): { readonly overview: Html; readonly pages: readonly Html[] } {
  const items = new Map([...context.views.values()].map((v) => [v.part.id, v.item]));
  const whole = placedForPaper(buildScene(context.plan), items);
  const { scene, over }: { scene: Scene; over: readonly Primitive[] } = since ? changedDrawing(whole, since) : { scene: whole, over: [] };
  const upright = drawingRoom(paper, false);
  const pages = drawingPages(scene, items, upright, drawingRoom(paper, true), over);
  return {
    overview:
      pages.length < 2
        ? raw('')
        : raw(
            overview(
              scene,
              items,
              pages.map((p) => p.box),
              upright.w,
              overviewMm(context, upright.h),
            ),
          ),
    pages: pages.map((page) => section(page.title, raw(page.svg), page.lying ? 'drawing wide' : 'drawing')),
  };
}

/** A step with more rows may be cut by the foot of a column. */
const MOST_WHOLE = 4;

function tests(steps: readonly Step[]): Html {
  if (steps.length === 0) return raw('');
  const columns = [{ title: 'Measure' }, { title: 'Expected' }, { title: 'Read' }, { title: 'Good', kind: 'c' as const }];
  const parts = steps.map(
    (step, i) => h`<div class="${step.checks.length > MOST_WHOLE ? 'step' : 'step short'}"><h3>${i + 1}. ${step.title}</h3>
<p>${step.how}</p>
${bareTable(
  step.title,
  columns,
  step.checks.map((c) => [c.measure, c.expected, '', TICK]),
)}</div>
`,
  );
  return section(
    'Trying it, in fitting order',
    h`<p>Left: what to look at, and what is expected of typical parts and supply. Right: room for the reading, and a box to tick when it is good. Stop where a reading is far off and find out why.</p>
<div class="cols">${parts}</div>`,
  );
}

function checklist(context: Context): Html {
  const groups = checklistGroups(context).map(
    (group) => h`<h3>${group.title}</h3>
<ul class="checks">${group.lines.map((line) => h`<li>${TICK}<span>${line}</span></li>\n`)}</ul>
`,
  );
  return section('Checklist: what no drawing shows', h`<div class="cols">${groups}</div>`);
}
