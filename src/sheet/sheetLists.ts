import { KEY_POSITIONS } from '../analysis/types.ts';
import { HEADER } from '../trade/header.ts';
import { type Context, wireName } from './context.ts';
import { amps, DASH, dropVolts, type LengthUnit, lengthText, nearVolts, percent, volts } from './figures.ts';
import { type Html, h, raw, section, TICK, table } from './markup.ts';
import { fuseRows, partRows, relayRows, tapRows } from './partRows.ts';
import { wireRows, wireToBuy } from './wireRows.ts';

/** The wire list: one line a wire of the build, with boxes to tick and room for a reading. */
export function wireSection(context: Context, unit: LengthUnit): Html {
  const rows = wireRows(context).map((r) => [
    h`<strong>${r.number}</strong>`,
    twoLines(r.from, r.fromJoint),
    twoLines(r.to, r.toJoint),
    r.areaMm2 === null ? DASH : twoLines(`${r.areaMm2} mm²`, r.awg),
    twoLines(r.colour || DASH, r.letters),
    r.cable ? DASH : twoLines(`${r.insulationC} °C`, r.sleeved ? 'sleeved' : ''),
    twoLines(r.way, r.note),
    twoLines(lengthText(r.lengthM, unit), r.cable ? 'as bought' : `cut ${lengthText(r.cutM, unit)}`),
    amps(r.loadA),
    twoLines(dropVolts(r.dropV), r.dropShare === null ? '' : percent(r.dropShare)),
    r.protectedBy || (r.nominalV === 0 ? 'return' : 'none'),
    r.cable ? DASH : TICK,
    r.cable ? DASH : TICK,
    TICK,
    '',
  ]);
  const head = [
    { title: 'Wire' },
    { title: 'From' },
    { title: 'To' },
    { title: 'Size', kind: 'keep' },
    { title: 'Colour' },
    { title: 'Insulation', kind: 'keep' },
    { title: 'Way' },
    { title: 'Length', kind: 'n' },
    { title: 'Load', kind: 'n' },
    { title: 'Drop', kind: 'n' },
    { title: 'Protected by' },
    { title: 'Cut', kind: 'c' },
    { title: 'Crimped', kind: 'c' },
    { title: 'Tested', kind: 'c' },
    { title: 'Reading', kind: 'blank' },
  ] as const;
  const intro = h`<p>Numbers are those of the drawing. Cut = run + 10 % + 100 mm at each end. Load is the heating current; drop is the largest of all key positions. The vehicle’s own wires are not on this list.</p>`;
  return section(
    'Wire list',
    h`${intro}
${table('Wire list', head, rows)}`,
    'wide own',
  );
}

function twoLines(first: string, second: string): Html {
  return second === '' ? h`${first}` : h`${first}<br>${second}`;
}

/** Where the build joins the vehicle, with what each lead should read and room for what it does read. */
export function tapSection(context: Context): Html {
  const taps = tapRows(context);
  if (taps.length === 0) return raw('');
  const head = [
    { title: 'Lead' },
    { title: 'Terminal' },
    { title: 'Vehicle fuse' },
    { title: 'Our wires' },
    { title: '' },
    ...KEY_POSITIONS.map((k) => ({ title: k.key, kind: 'n' as const })),
    { title: 'Door opened', kind: 'blank' as const },
  ];
  const rows = taps.flatMap((t) => [
    [twoLines(t.label, t.what), t.line, t.donorFuse || 'none known', t.wires.join(', '), 'expected', ...t.volts.map(nearVolts), ''],
    ['Colour, plug and cavity as found:', '', '', '', 'read', ...KEY_POSITIONS.map(() => ''), ''],
  ]);
  return section(
    'Taps: the vehicle’s leads that are joined onto',
    h`<p>Measure every lead in every key position before joining onto it; a lead that reads otherwise is another lead.</p>
${table('Taps', head, rows)}`,
    'wide',
  );
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
    amps(f.leastShortA),
    f.unfusedM === null ? DASH : lengthText(f.unfusedM, unit),
    TICK,
  ]);
  const relays = relayRows(context).map((r) => [h`<strong>${r.item}</strong>`, r.name, r.spec, r.zone, h`${r.terminals.map((t) => h`${t}<br>`)}`]);
  return section(
    'Fuses and relays',
    h`${table(
      'Fuses',
      [
        { title: 'Fuse' },
        { title: 'Name' },
        { title: 'Rating, body' },
        { title: 'Do not lower' },
        { title: 'Zone' },
        { title: 'Protects' },
        { title: 'Load', kind: 'n' },
        { title: 'Least short', kind: 'n' },
        { title: 'From tap', kind: 'n' },
        { title: 'Spare on board', kind: 'c' },
      ],
      fuses,
    )}
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
        if (!pin) return [String(cell.pin), what, cell.rail ? DASH : 'leave free', '', '', ''];
        return [
          h`<strong>${cell.pin}</strong>`,
          what,
          h`<strong>${pin.label || 'joined'}</strong>`,
          `${levelWords(pin.level[ignition])}${volts(pin.volts[ignition] ?? Number.NaN)}`,
          pin.pull,
          wire ? wireName(wire) : '',
        ];
      });
      const head = [{ title: 'Pin' }, { title: 'Is' }, { title: 'Joined to' }, { title: 'With the key in Ignition' }, { title: 'Pull' }, { title: 'Wire' }];
      return section(
        `40-pin header of ${view.item} ${view.name}`,
        h`<p>Pin 1 is the square pad; odd numbers form the row on the board’s inner side. Nothing above 3.3 V on a GPIO, ever.</p>
${table('Header pins', head, rows)}`,
        'own',
      );
    });
}

function levelWords(level: string | undefined): string {
  return level === undefined || level === 'rail' ? '' : `${level}, `;
}

export function partsSection(context: Context, unit: LengthUnit): Html {
  const parts = partRows(context).map((r) => [String(r.items.length), r.title, r.spec, r.items.join(', '), r.names.join('; '), r.zones.join('; '), TICK]);
  const wire = wireToBuy(wireRows(context)).map((w) => [
    lengthText(w.metres, unit),
    `${w.areaMm2} mm² (${w.awg})`,
    w.colour || DASH,
    `${w.insulationC} °C`,
    String(w.pieces),
  ]);
  return section(
    'Parts',
    h`<p>A part may be replaced by another only when every figure in the third column is kept or bettered.</p>
${table('Parts list', [{ title: 'Quantity', kind: 'n' }, { title: 'Part' }, { title: 'Do not lower' }, { title: 'Items' }, { title: 'Called' }, { title: 'Zone' }, { title: 'Here', kind: 'c' }], parts)}
<h3>Wire to buy</h3>
${table('Wire to buy', [{ title: 'Cut lengths together', kind: 'n' }, { title: 'Size' }, { title: 'Colour' }, { title: 'Insulation' }, { title: 'Pieces', kind: 'n' }], wire)}`,
  );
}
