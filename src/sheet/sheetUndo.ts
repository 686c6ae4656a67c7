import { listed } from '../plan/listed.ts';
import type { Context } from './context.ts';
import { wireName } from './context.ts';
import { daysText } from './figures.ts';
import { type Html, h, raw, section, table } from './markup.ts';
import { fuseRows } from './partRows.ts';

/** What stays with the vehicle: how to take the build out again, and the card for the owner. */
export function leavingSections(context: Context): Html[] {
  return [undoing(context), ownersCard(context)];
}

function undoing(context: Context): Html {
  const rows = context.wires.flatMap((w) =>
    [w.from, w.to].filter((end) => context.views.get(end.part)?.part.owner === 'vehicle').map((end) => [wireName(w), context.endLabel(end), '', '']),
  );
  if (rows.length === 0) return raw('');
  return section(
    'To take it out again',
    h`<div class="write">${table(
      'To take it out again',
      [
        { title: 'Wire', widthMm: 12 },
        { title: 'Joined to the vehicle at', widthMm: 50 },
        { title: 'What was cut, unplugged or moved' },
        { title: 'How to undo' },
      ],
      rows,
    )}</div>`,
    'apart',
  );
}

function ownersCard(context: Context): Html {
  const { parked } = context.results.analysis;
  const first = fuseRows(context).filter((f) => f.unfusedM !== null);
  const fuses = (first.length > 0 ? first : fuseRows(context)).map((f) => `${f.item} (${f.ratingA} A, ${f.zone})`);
  const pull = fuses.length === 0 ? 'disconnect the battery: no fuse of this build isolates it' : `pull ${listed(fuses)}`;
  return section(
    'Owner’s card: cut out and keep in the vehicle',
    h`<div class="card">
<p><strong>${context.plan.title || 'Untitled plan'}</strong>, ${context.plan.vehicle.name || 'vehicle not named'}</p>
<p>To isolate this build: ${pull}. Do so before a jump start, welding or a battery change.</p>
<p>Parked limit: ${daysText(parked.days)}; ${daysText(parked.daysWithout)} without this build. Before it stands longer, isolate the build; after that, start the engine.</p>
</div>`,
    'apart',
  );
}
