import { settingsOf } from '../../../src/parts/definePart.ts';
import { partKinds } from '../../../src/parts/index.ts';
import { apply } from '../../../src/plan/apply.ts';
import { addParts, type Fragment } from '../../../src/plan/edits.ts';
import { emptyPlan } from '../../../src/plan/new.ts';
import type { ColourCode, Plan } from '../../../src/plan/types.ts';

const COLOURS: readonly ColourCode[] = ['RD', 'BK', 'YE', 'GN', 'BU', 'VT', 'OG', 'WH'];
const AREAS = [0.22, 0.5, 1, 2.5];
const ACROSS = 6;

/** Numbers from 0 to n - 1 that look random and are the same every time. */
function dice(seed: number): (n: number) => number {
  let s = seed;
  return (n) => {
    s = (s * 1103515245 + 12345) % 2147483648;
    return Math.floor((s / 2147483648) * n);
  };
}

/**
 * A plan of any size for timing: parts of every kind in rows over four zones, wires mostly between neighbours, and
 * one part, key `hub`, with twenty wires.
 */
export function bigPlan(parts: number, wires: number): { readonly plan: Plan; readonly hub: string } {
  const roll = dice(7);
  const kinds = [...partKinds.keys()].filter((k) => !['chassis-ground', 'splice', 'computer'].includes(k)).sort();
  const perZone = Math.ceil(parts / 4);
  const rows = Array.from({ length: parts }, (_, i) => ({
    key: i === HUB ? 'hub' : `k${i}`,
    kind: i === HUB ? 'terminal-strip' : (kinds[roll(kinds.length)] as string),
    zone: `z${1 + Math.floor(i / perZone)}`,
    x: 40 + ((i % perZone) % ACROSS) * 200,
    y: 20 + Math.floor((i % perZone) / ACROSS) * 160,
    settings: i === HUB ? { ways: 10 } : {},
  }));
  const terminals = rows.map((r) => {
    const kind = partKinds.get(r.kind);
    return kind ? kind.terminals(settingsOf(kind, r.settings)).map((t) => t.id) : [];
  });
  const end = (i: number): readonly [string, string] => [
    (rows[i] as { key: string }).key,
    (terminals[i] as string[])[roll((terminals[i] as string[]).length)] as string,
  ];
  const list: Fragment['wires'][number][] = [];
  for (let i = 0; i < wires; i++) {
    const extras = { number: i + 1, colour: COLOURS[roll(COLOURS.length)] as ColourCode, areaMm2: AREAS[roll(AREAS.length)] as number };
    if (i < 20) {
      const ways = terminals[HUB] as string[];
      list.push({ from: ['hub', ways[i % ways.length] as string], to: end((HUB + 1 + i) % parts), extras });
      continue;
    }
    const a = roll(parts);
    const near = roll(10) === 0 ? roll(parts) : Math.min(parts - 1, Math.max(0, a + roll(13) - 6));
    const b = near === a ? (a + 1) % parts : near;
    list.push({ from: end(a), to: end(b), extras });
  }
  const plan = emptyPlan('Frames', {}, 'frames');
  const added = addParts(plan, { parts: rows, wires: list });
  const done = apply(plan, added.edit);
  if (!done.ok) throw new Error(done.reason);
  return { plan: done.plan, hub: added.ids.hub as string };
}

/** Place of the hub among the parts: in the middle of the second row, all sides busy. */
const HUB = 8;
