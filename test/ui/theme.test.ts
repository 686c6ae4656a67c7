import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { luminance } from '../../src/canvas/inks.ts';

const css = readFileSync('src/ui/theme.css', 'utf8');

/** The colours of a theme by name. */
function theme(name: string): ReadonlyMap<string, string> {
  const block = css.match(new RegExp(`\\[data-theme="${name}"\\] \\{([^}]*)\\}`))?.[1] ?? '';
  return new Map([...block.matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map((m) => [m[1] ?? '', m[2] ?? '']));
}

function ratio(a: string, b: string): number {
  const [x, y] = [luminance(a), luminance(b)];
  return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
}

const GROUNDS = ['paper', 'ground', 'zone-a', 'zone-b'];
const TEXTS = ['ink', 'soft', 'faint', 'accent', 'vehicle', 'hazard', 'fault', 'advice'];
const OWN: readonly (readonly [string, string])[] = [
  ['ink', 'wash'],
  ['on-accent', 'accent'],
  ['hazard', 'hazard-wash'],
  ['fault', 'fault-wash'],
  ['advice', 'advice-wash'],
];

// WCAG 2.2: 1.4.6 enhanced contrast 7 : 1 for text, 1.4.11 non-text contrast 3 : 1.
describe.each(['contrast', 'contrast-dark'])('the %s theme', (name) => {
  const colours = theme(name);
  const of = (c: string): string => colours.get(c) ?? 'none';
  const pairs = [...TEXTS.flatMap((t) => GROUNDS.map((g) => [t, g] as const)), ...OWN];

  it('has every text at 7 : 1 or more on what it stands on', () => {
    expect(colours.size).toBe(21);
    expect(pairs.filter(([t, g]) => !(ratio(of(t), of(g)) >= 7)).map(([t, g]) => `${t} on ${g}: ${ratio(of(t), of(g)).toFixed(2)}`)).toEqual([]);
  });
  it('has lines and edges at 3 : 1 or more', () => {
    const low = ['line', 'edge', 'bar'].flatMap((l) => GROUNDS.map((g) => [l, g] as const)).filter(([l, g]) => !(ratio(of(l), of(g)) >= 3));
    expect(low).toEqual([]);
  });
});

describe.each(['light', 'dark', 'contrast', 'contrast-dark'])('insulation that would vanish in the %s theme', (name) => {
  it('has an edge of 3 : 1 or more; in the dark, where most wires need it, of 6 : 1', () => {
    const colours = theme(name);
    for (const zone of ['zone-a', 'zone-b']) {
      const [ground, edge] = [colours.get(zone) ?? 'none', colours.get('wire-edge') ?? 'none'];
      expect(ratio(edge, ground), `${edge} on ${ground}`).toBeGreaterThanOrEqual(name.includes('dark') ? 6 : 3);
    }
  });
});
