import type { EventReport } from '../analysis/time/types.ts';
import type { Context } from './context.ts';
import { type Html, h, raw, table } from './markup.ts';
import { EVENT_WORDS, eventsAnswer, peakText, STRESS_WORDS, shareText, worstStresses } from './timing/events.ts';
import { stuckText } from './timing/words.ts';

/** Rows in print: the rest is within this share of what its part stands. */
const MOST_ROWS = 16;
const LEAST_SHARE = 0.3;

/** What surges, dips and a reversed supply do to the parts, compact: the worst event of each figure. */
export function eventsTable(context: Context, reports: readonly EventReport[]): Html {
  const rows = worstStresses(reports).filter((r, k) => k < MOST_ROWS && r.stress.share >= LEAST_SHARE);
  const stuck = reports.flatMap((r) => stuckText(r) ?? []);
  return h`<h3>Surges, dips and a reversed supply</h3>
<p>${eventsAnswer(reports, context.label)}</p>
${stuck.map((text) => h`<p>${text}</p>`)}
${
  rows.length === 0
    ? raw('')
    : table(
        'Peak of each part in its worst event',
        [{ title: 'Part' }, { title: 'What' }, { title: 'Peak', kind: 'n' }, { title: 'Of what it stands', kind: 'n' }, { title: 'In which event' }],
        rows.map(({ stress, event }) => [
          context.label(stress.part),
          STRESS_WORDS[stress.kind],
          peakText(stress),
          shareText(stress),
          EVENT_WORDS[event.profile],
        ]),
      )
}
<p class="small">Events of ISO 16750-2 and ISO 7637-2 behind their stiffest source; parts in the middle of their tolerance. ${rows.length > 0 ? 'Figures below a third of what the part stands are left out.' : ''}</p>`;
}
