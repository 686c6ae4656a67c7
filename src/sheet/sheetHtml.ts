import { headline, lookedText } from '../advise/headline.ts';
import type { Results } from '../advise/types.ts';
import { buildScene } from '../scene/buildScene.ts';
import { CAUTIONS } from '../trade/cautions.ts';
import { bringUp, type Step } from './bringUp/steps.ts';
import { checklistLines } from './checklist.ts';
import { type Context, contextOf } from './context.ts';
import { drawingPages } from './drawing.ts';
import { daysText, type LengthUnit } from './figures.ts';
import { type Html, h, list, raw, section, TICK, table } from './markup.ts';
import { fuseRows } from './partRows.ts';
import { findingsSections } from './sheetFindings.ts';
import { keySection } from './sheetKey.ts';
import { fuseSection, partsSection, pinSections, tapSection, wireSection } from './sheetLists.ts';
import { drawingRoom, type Paper, printCss } from './style.ts';
import { type SheetTime, timingSection } from './timing.ts';
import { plural } from './words.ts';

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
}

/**
 * The wiring sheet: a whole HTML document that stands alone (no script, nothing to fetch) and prints on A4 or Letter.
 * Pure: the same results and options give the same text.
 */
export function sheetHtml(results: Results, options: SheetOptions): string {
  const context = contextOf(results);
  const { plan } = context;
  const title = plan.title || 'Untitled plan';
  const unit = options.lengths ?? 'm';
  const body = [
    titleBlock(context, title, options),
    cautions(),
    drawing(context, options.paper),
    wireSection(context, unit),
    tapSection(context),
    fuseSection(context, unit),
    keySection(context),
    ...(options.time ? [timingSection(context, options.time)] : []),
    ...pinSections(context),
    partsSection(context, unit),
    tests(bringUp(context)),
    checklist(context),
    ...findingsSections(results),
    undoing(context),
    ownersCard(context),
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
${body}</body>
</html>
`.html;
}

const POLARITY = {
  'negative-ground': 'negative to ground',
  'positive-ground': 'POSITIVE to ground',
  unknown: 'not known: find out before work',
} as const;

function titleBlock(context: Context, title: string, options: SheetOptions): Html {
  const { vehicle } = context.plan;
  const { report } = context.results;
  const row = (name: string, value: string): Html => h`<tr><th scope="row">${name}</th><td>${value}</td></tr>\n`;
  const open = report.cards.some((c) => c.level === 'hazard');
  return h`<header>
<h1>${title}</h1>
<table class="title" aria-label="Title block">
${row('Vehicle', vehicle.name || 'not named')}${row('System', `${vehicle.systemV} V, ${POLARITY[vehicle.polarity]}`)}${row('Battery', `${vehicle.batteryAh} Ah`)}${row('Extent', `${plural(context.ours.length, 'part')}, ${plural(context.wires.length, 'wire')}`)}${row('Date', options.date)}${row('Planned by', options.who ?? '')}${row('Findings', `${headline(report)} · ${lookedText(report)}`)}</table>
<div class="warn">Check against the vehicle before work. ${open ? 'This plan has open hazards: do not build it before they are cleared.' : ''}</div>
${context.plan.note === '' ? raw('') : h`<p>${context.plan.note}</p>`}
<table class="sign" aria-label="Signatures"><tbody><tr><td>Wired by, date</td><td>Tested by, date</td><td>Checked by a qualified person, date</td></tr></tbody></table>
</header>
`;
}

function cautions(): Html {
  return section('Cautions', list(CAUTIONS.map((c) => h`${c.text}${c.sign ? h` <span class="small">(ISO 7010 ${c.sign})</span>` : raw('')}`)));
}

function drawing(context: Context, paper: Paper): Html {
  const room = drawingRoom(paper);
  const items = new Map(context.ours.map((v) => [v.part.id, v.item]));
  const pages = drawingPages(buildScene(context.plan), items, room.w, room.h);
  const note = pages.length > 1 ? ` (${plural(pages.length - 1, 'piece')} at readable size follow)` : '';
  return h`${pages.map((page, i) => section(i === 0 ? `${page.title}${note}` : page.title, raw(page.svg), 'wide own'))}`;
}

function tests(steps: readonly Step[]): Html {
  const parts = steps.map(
    (step, i) => h`<div class="step"><h3>${i + 1}. ${step.title}</h3>
<p>${step.how}</p>
${table(
  step.title,
  [{ title: 'Measure' }, { title: 'Expected' }, { title: 'Read', kind: 'blank' }, { title: 'Good', kind: 'c' }],
  step.checks.map((c) => [c.measure, c.expected, '', TICK]),
)}</div>
`,
  );
  return section(
    'Trying it, in fitting order',
    h`<p>Expected figures are worked out for typical parts and supply; stop where a reading is far off and find out why.</p>
${parts}`,
    'own',
  );
}

function checklist(context: Context): Html {
  const rows = checklistLines(context).map((line) => [TICK, line]);
  return section('Checklist: what no drawing shows', table('Checklist', [{ title: 'Done', kind: 'c' }, { title: 'Look at' }], rows));
}

function undoing(context: Context): Html {
  const taps = context.results.filled.wires;
  const rows = Object.values(taps)
    .filter((w) => w.owner === 'build')
    .flatMap((w) =>
      [w.from, w.to].filter((end) => context.views.get(end.part)?.part.owner === 'vehicle').map((end) => [`W${w.number ?? ''}`, context.endLabel(end), '', '']),
    );
  if (rows.length === 0) return raw('');
  return section(
    'To take it out again',
    table(
      'To take it out again',
      [
        { title: 'Wire' },
        { title: 'Joined to the vehicle at' },
        { title: 'What was cut, unplugged or moved', kind: 'blank' },
        { title: 'How to undo', kind: 'blank' },
      ],
      rows,
    ),
  );
}

function ownersCard(context: Context): Html {
  const { parked } = context.results.analysis;
  const first = fuseRows(context).filter((f) => f.unfusedM !== null);
  const fuses = (first.length > 0 ? first : fuseRows(context)).map((f) => `${f.item} (${f.ratingA} A, ${f.zone})`);
  const pull = fuses.length === 0 ? 'disconnect the battery: no fuse of this build isolates it' : `pull ${fuses.join(' and ')}`;
  return section(
    'Owner’s card: cut out and keep in the vehicle',
    h`<div class="card">
<p><strong>${context.plan.title || 'Untitled plan'}</strong>, ${context.plan.vehicle.name || 'vehicle not named'}</p>
<p>To isolate this build: ${pull}.</p>
<p>Before a jump start, welding or a battery change: ${pull}.</p>
<p>Parked limit: ${daysText(parked.days)}; ${daysText(parked.daysWithout)} without this build. After that, start the engine or ${pull}.</p>
</div>`,
  );
}
