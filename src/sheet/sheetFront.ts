import { headline, lookedText } from '../advise/headline.ts';
import { CAUTIONS } from '../trade/cautions.ts';
import type { Context } from './context.ts';
import { type Html, h, list, raw, section } from './markup.ts';
import { revisionText } from './sheetChanges.ts';
import type { SheetOptions } from './sheetHtml.ts';
import { plural } from './words.ts';

const POLARITY = {
  'negative-ground': 'negative to ground',
  'positive-ground': 'POSITIVE to ground',
  unknown: 'not known: find out before work',
} as const;

/** The first page: title block, lines to sign, the whole plan at a glance, cautions. */
export function frontPage(context: Context, title: string, options: SheetOptions, overview: Html): Html {
  return h`${titleBlock(context, title, options)}${overview.html === '' ? raw('') : section('Where everything is', overview)}${cautions()}`;
}

function titleBlock(context: Context, title: string, options: SheetOptions): Html {
  const { vehicle } = context.plan;
  const { report } = context.results;
  const pair = (name: string, value: string): Html => h`<th scope="row">${name}</th><td>${value}</td>`;
  const row = (a: readonly [string, string], b: readonly [string, string]): Html => h`<tr>${pair(...a)}${pair(...b)}</tr>\n`;
  const revision = revisionText(context.plan);
  const open = report.cards.some((c) => c.level === 'hazard');
  return h`<header>
<h1>${title}</h1>
${context.plan.note === '' ? raw('') : h`<p>${context.plan.note}</p>`}
<table class="title" aria-label="Title block"><tbody>
${row(['Vehicle', vehicle.name || 'not named'], ['Date', options.date])}${row(['System', `${vehicle.systemV} V, ${POLARITY[vehicle.polarity]}`], ['Planned by', options.who ?? ''])}${row(['Battery', `${vehicle.batteryAh} Ah`], ['Extent', `${plural(context.ours.length, 'part')}, ${plural(context.wires.length, 'wire')}`])}${revision === null ? raw('') : row(['Revision', revision], ['Shows', options.since === undefined ? 'the whole build' : `only what changed since revision ${options.since}`])}<tr><th scope="row">Findings</th><td colspan="3">${`${headline(report)} · ${lookedText(report)}`}</td></tr>
</tbody></table>
<div class="warn">Check against the vehicle before work. ${open ? 'This plan has open hazards: do not build it before they are cleared.' : ''}</div>
<table class="sign" aria-label="Signatures"><tbody><tr><td>Wired by, date</td><td>Tested by, date</td><td>Checked by a qualified person, date</td></tr></tbody></table>
</header>
`;
}

function cautions(): Html {
  const items = CAUTIONS.map((c) => h`${c.text}${c.sign ? h` <span class="keep">(ISO 7010 ${c.sign})</span>` : raw('')}`);
  return section('Cautions', h`<div class="cols small">${list(items)}</div>`);
}
