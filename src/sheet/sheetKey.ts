import type { PartView } from '../analysis/factsTypes.ts';
import { KEY_POSITIONS } from '../analysis/types.ts';
import { timingChecks } from './bringUp/signals.ts';
import type { Context } from './context.ts';
import { DASH, nearVolts } from './figures.ts';
import { type Html, h, raw, section, table } from './markup.ts';
import { tapRows } from './partRows.ts';

/** Key positions against taps, converters, relays and computers, with the seconds that key-off allows and needs. */
export function keySection(context: Context): Html {
  const rows = [...tapRows(context).map((t) => [`${t.label}, lead`, ...t.volts.map(nearVolts)]), ...context.ours.flatMap((view) => rowsOf(context, view))];
  if (rows.length === 0) return raw('');
  const timing = timingChecks(context).map((c) => `${c.measure}: ${c.expected}.`);
  return section(
    'Key positions at a glance',
    h`${table('Key positions', [{ title: 'Part' }, ...KEY_POSITIONS.map((k) => ({ title: k.key, kind: 'n' as const }))], rows)}
${timing.length === 0 ? raw('') : h`<p>${timing.join(' ')}</p>`}`,
    'apart',
  );
}

function rowsOf(context: Context, view: PartView): string[][] {
  const id = view.part.id;
  const label = `${view.item} ${view.name}`;
  const at = (word: (state: (typeof KEY_POSITIONS)[number]['state']) => string): string[] => KEY_POSITIONS.map((k) => word(k.state));
  if (view.kind.kind === 'computer') {
    return [
      [
        label,
        ...at((state) => {
          const powered = context.deviceOn(id, 'powered', state);
          if (powered === null) return DASH;
          if (!powered) return 'no power';
          return context.deviceOn(id, 'halted', state) ? 'stopped' : 'up';
        }),
      ],
    ];
  }
  if (view.kind.letter === 'K') {
    const device = ['hold', 'coil', 'latch', 'contact'].find((name) => context.deviceOn(id, name, 'RUN_CHARGING') !== null) ?? '';
    const [on, off] = device === 'latch' || device === 'contact' ? ['closed', 'open'] : ['drawn in', 'at rest'];
    const word = (is: boolean | null): string => (is === null ? DASH : is ? on : off);
    return [[label, ...at((state) => word(context.deviceOn(id, device, state)))]];
  }
  const source = view.facts.sources?.find((s) => s.kind === 'converter');
  if (!source || source.returns.startsWith('@')) return [];
  const across = (state: (typeof KEY_POSITIONS)[number]['state']): number =>
    context.volts(id, source.terminal, state, 'typical') - context.volts(id, source.returns, state, 'typical');
  return [[`${label}, output`, ...at((state) => nearVolts(across(state)))]];
}
