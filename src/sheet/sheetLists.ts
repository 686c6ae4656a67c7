import { KEY_POSITIONS } from '../analysis/types.ts';
import type { Id } from '../plan/types.ts';
import { HEADER } from '../trade/header.ts';
import { type Context, wireName } from './context.ts';
import { amps, DASH, dropVolts, type LengthUnit, lengthText, nearVolts, percent, volts } from './figures.ts';
import { type Column, type Html, h, raw, section, TICK, TICKED, table } from './markup.ts';
import { fuseRows, partRows, relayRows, tapRows } from './partRows.ts';
import { TOO_MUCH, type WireRow, wireRows, wireToBuy } from './wireRows.ts';

/** The wire list: one line a wire of the build, with boxes to tick and room for a reading. */
export function wireSection(context: Context, unit: LengthUnit): Html {
  const all = wireRows(context);
  if (all.length === 0) return raw('');
  const usualC = commonest(all.filter((r) => !r.cable).map((r) => r.insulationC));
  const rows = all.map((r) => [
    happenedTo(context, r.id) === '' ? h`<strong>${r.number}</strong>` : h`<strong>${r.number}</strong><br>${happenedTo(context, r.id)}`,
    endsCell(r, usualC),
    r.areaMm2 === null ? DASH : twoLines(`${r.areaMm2}\u00a0mm²`, r.awg),
    r.letters === '' ? r.colour || DASH : `${r.colour} ${r.letters}`,
    twoLines(lengthText(r.lengthM, unit), r.cable ? 'as bought' : `cut\u00a0${lengthText(r.cutM, unit)}`),
    amps(r.loadA),
    twoLines(dropVolts(r.dropV), shareText(r)),
    r.protectedBy || (r.nominalV === 0 ? 'return' : 'none'),
    r.cable ? DASH : box(r.fitted),
    r.cable ? DASH : box(r.fitted),
    TICK,
    '',
  ]);
  const head: readonly Column[] = [
    { title: 'Wire', widthMm: context.happened ? 15 : 8.5 },
    { title: 'From → to, and how it is joined there' },
    { title: 'Size', kind: 'keep', widthMm: 15 },
    { title: 'Colour', widthMm: 22 },
    { title: 'Length', kind: 'n', widthMm: 16 },
    { title: 'Load', kind: 'n', widthMm: 11.5 },
    { title: 'Drop', kind: 'n', widthMm: 12 },
    { title: 'Fuse', widthMm: 11.5 },
    { title: 'Cut', kind: 'up', widthMm: 7 },
    { title: 'Crimp', kind: 'up', widthMm: 7 },
    { title: 'Test', kind: 'up', widthMm: 7 },
    { title: 'Read', widthMm: 10 },
  ];
  const insulation = usualC === undefined ? '' : ` Insulation ${usualC} °C where nothing else is said.`;
  const tooMuch = all.some((r) => r.protectedBy.endsWith(TOO_MUCH)) ? ' Too much = it lets more through than the wire carries: see the open findings.' : '';
  const fitted = all.some((r) => r.fitted) ? ' A crossed box: fitted before this was printed; the drawing shows it by a filled corner.' : '';
  const intro = h`<p>Numbers are those of the drawing; after the dot stands the terminal. Cut = run + 10 % + 100 mm at each end. Load is the heating current; drop is the largest of all key positions.${insulation}${tooMuch}${fitted} The vehicle’s own wires are not on this list.</p>`;
  return section('Wire list', h`${intro}\n${table('Wire list', head, rows)}`, 'own');
}

/** Both ends with their joints; below, what is not said of every wire: the zones it crosses, other insulation, a sleeve, a note. */
function endsCell(r: WireRow, usualC: number | undefined): Html {
  const more = [
    r.way.includes('→') ? r.way : '',
    r.cable || r.insulationC === usualC ? '' : `insulation ${r.insulationC} °C`,
    r.sleeved ? 'sleeved' : '',
    r.note,
  ].filter((t) => t !== '');
  const end = (text: string, joint: string): Html => h`<div class="end"><span>${shortEnd(text)}</span> <span>${joint}</span></div>`;
  return h`${end(r.from, r.fromJoint)}${end(`→ ${r.to}`, r.toJoint)}${more.length === 0 ? raw('') : h`<div>(${more.join('; ')})</div>`}`;
}

/** What is fitted was cut and crimped before. */
function box(done: boolean): Html {
  return done ? TICKED : TICK;
}

/** Nothing for no drop. */
function shareText(r: WireRow): string {
  if (r.dropShare === null || r.dropV < 0.05e-3) return '';
  return r.dropShare < 0.001 ? '<\u00a00.1\u00a0%' : percent(r.dropShare);
}

/** Said in a word or two, so that most ends fit one line. */
function shortEnd(text: string): string {
  return text.replace(', terminal ', ' · ').replace(/, side towards the (\w+)$/, ', $1 side');
}

function commonest(values: readonly number[]): number | undefined {
  const counts = new Map<number, number>();
  for (const v of values) counts.set(v, (counts.get(v) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0];
}

function twoLines(first: string, second: string): Html {
  return second === '' ? h`${first}` : h`${first}<br>${second}`;
}

/** Where the build joins the vehicle, with what each lead should read and room for what it does read. */
export function tapSection(context: Context): Html {
  const taps = tapRows(context);
  if (taps.length === 0) return raw('');
  const keys = KEY_POSITIONS.map((k) => k.key);
  const rows = taps.map(
    (
      t,
    ) => h`<tr><td>${twoLines(t.label, t.what)}</td><td>${t.line}</td><td>${t.donorFuse || 'none known'}</td><td>${t.wires.join(', ')}</td><td>expected</td>${t.volts.map((v) => h`<td class="n">${nearVolts(v)}</td>`)}<td class="n">${nearVolts(t.doorV)}</td></tr>
<tr class="read"><td colspan="4">Colour, plug and cavity as found:${foundBefore(context, t.part)}</td><td>read</td>${keys.map(() => h`<td></td>`)}<td></td></tr>
`,
  );
  return section(
    'Taps: the vehicle’s leads that are joined onto',
    h`<p>Measure every lead in every key position before joining onto it; a lead that reads otherwise is another lead.</p>
<table aria-label="Taps">
<thead><tr><th scope="col" style="width:30mm">Lead</th><th scope="col">Terminal</th><th scope="col" style="width:26mm">Vehicle fuse</th><th scope="col">Our wires</th><td></td>${keys.map((k) => h`<th scope="col" class="n">${k}</th>`)}<th scope="col" class="n">Door opened</th></tr></thead>
<tbody>
${rows}</tbody>
</table>`,
    'apart',
  );
}

/** What was written down about a lead when it was found. */
function foundBefore(context: Context, part: Id): string {
  const note = context.views.get(part)?.part.note;
  return note ? ` ${note}` : '';
}

export function fuseSection(context: Context, unit: LengthUnit): Html {
  const fuses = fuseRows(context).map((f) => [
    h`<strong>${f.item}</strong>`,
    f.name,
    h`<strong>${f.ratingA} A</strong>, ${f.body}`,
    f.spec,
    f.zone,
    f.protects.join(', ') || DASH,
    `${amps(f.heatA)} of ${amps(f.allowedA)}`,
    f.limit ? twoLines(amps(f.limit.maxA), `limit of ${f.limit.by}`) : Number.isFinite(f.leastShortA) ? amps(f.leastShortA) : DASH,
    f.unfusedM === null ? DASH : lengthText(f.unfusedM, unit),
    TICK,
  ]);
  const relays = relayRows(context).map((r) => [h`<strong>${r.item}</strong>`, r.name, r.spec, r.zone, h`${r.terminals.map((t) => h`${t}<br>`)}`]);
  if (fuses.length + relays.length === 0) return raw('');
  return section(
    'Fuses and relays',
    h`${
      fuses.length === 0
        ? raw('')
        : table(
            'Fuses',
            [
              { title: 'Fuse', widthMm: 10 },
              { title: 'Name' },
              { title: 'Rating, body' },
              { title: 'Do not lower', widthMm: 46 },
              { title: 'Zone' },
              { title: 'Protects', widthMm: 32 },
              { title: 'Load' },
              { title: 'Least short', kind: 'n' },
              { title: 'From tap', kind: 'n' },
              { title: 'Spare', kind: 'c', widthMm: 10 },
            ],
            fuses,
          )
    }
${relays.length === 0 ? raw('') : table('Relays', [{ title: 'Relay' }, { title: 'Name' }, { title: 'Do not lower' }, { title: 'Zone' }, { title: 'Socket, terminal by terminal' }], relays)}`,
  );
}

/** One list of 40 pins for each computer. */
export function pinSections(context: Context): Html[] {
  const ignition = KEY_POSITIONS.findIndex((k) => k.key === 'Ignition');
  return context.ours
    .filter((view) => view.terminals.some((t) => t.form === 'header'))
    .map((view) => {
      const used = new Map(context.results.analysis.pins.filter((p) => p.part === view.part.id).map((p) => [p.pin, p]));
      const rows = HEADER.map((cell) => {
        const pin = used.get(cell.pin);
        const wire = pin?.wire ? context.plan.wires[pin.wire] : undefined;
        const what = cell.rail ? { '5V': '5 V', '3V3': '3.3 V', GND: 'ground' }[cell.rail] : `GPIO ${cell.gpio}`;
        if (!pin) return [String(cell.pin), what, cell.rail ? DASH : 'leave free', '', ''];
        const level = `${levelWords(pin.level[ignition])}${volts(pin.volts[ignition] ?? Number.NaN)}`;
        return [h`<strong>${cell.pin}</strong>`, what, h`<strong>${pin.label || 'joined'}</strong>`, twoLines(level, pin.pull), wire ? wireName(wire) : ''];
      });
      const head: readonly Column[] = [
        { title: 'Pin', kind: 'n', widthMm: 9 },
        { title: 'Is', widthMm: 16 },
        { title: 'Joined to' },
        { title: 'Key in Ignition', widthMm: 25 },
        { title: 'Wire', widthMm: 11 },
      ];
      return section(
        `40-pin header of ${view.item} ${view.name}`,
        h`<p>Pin 1 is the square pad; odd numbers form the row on the board’s inner side. Nothing above 3.3 V on a GPIO, ever.</p>
<div class="cols">${table('Header pins', head, rows)}</div>`,
        'apart',
      );
    });
}

function levelWords(level: string | undefined): string {
  return level === undefined || level === 'rail' ? '' : `${level}, `;
}

/** "new", "changed", or nothing on a list of everything. */
function happenedTo(context: Context, id: Id): string {
  return context.happened?.get(id) ?? '';
}

/** As-built notes, each with the part that it is about. */
function notesOf(context: Context, ids: readonly Id[]): readonly Html[] {
  return ids.flatMap((id) => {
    const view = context.views.get(id);
    return view?.part.note ? [h`<div>(${view.item}: ${view.part.note})</div>`] : [];
  });
}

export function partsSection(context: Context, unit: LengthUnit): Html {
  const parts = partRows(context).map((r) => [
    String(r.items.length),
    r.title,
    r.spec,
    r.items.map((item, i) => [item, happenedTo(context, r.ids[i] ?? '')].filter(Boolean).join('\u00a0')).join(', '),
    h`${r.names.join('; ')}${notesOf(context, r.ids)}`,
    r.zones.join('; '),
    box(r.ids.every((id) => context.plan.parts[id]?.fitted)),
  ]);
  if (parts.length === 0) return raw('');
  const all = wireToBuy(wireRows(context));
  const mixed = new Set(all.map((w) => w.insulationC)).size > 1;
  const wire = all.map((w) => [
    lengthText(w.metres, unit),
    `${w.areaMm2}\u00a0mm² (${w.awg})`,
    mixed ? `${w.colour || DASH}, ${w.insulationC} °C` : w.colour || DASH,
    String(w.pieces),
  ]);
  const buy: readonly Column[] = [{ title: 'Length', kind: 'n' }, { title: 'Size', kind: 'keep' }, { title: 'Colour' }, { title: 'Pieces', kind: 'n' }];
  const head: readonly Column[] = [
    { title: 'Pcs', kind: 'n', widthMm: 8 },
    { title: 'Part', widthMm: 25 },
    { title: 'Do not lower' },
    { title: 'Items', widthMm: 14 },
    { title: 'Called', widthMm: 27 },
    { title: 'Zone', widthMm: 22 },
    { title: 'Here', kind: 'c', widthMm: 9 },
  ];
  return h`${section(
    'Parts',
    h`<p>A part may be replaced by another only when every figure in the third column is kept or bettered.</p>
${table('Parts list', head, parts)}`,
  )}${
    wire.length === 0
      ? raw('')
      : section(
          'Wire to buy',
          h`<p>Cut lengths together${mixed ? '' : `; insulation ${all[0]?.insulationC} °C`}.</p>
<div class="cols">${table('Wire to buy', buy, wire)}</div>`,
        )
  }`;
}
