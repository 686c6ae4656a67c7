import { definePart } from '../definePart.ts';
import { amount } from '../settings.ts';
import { moduleBox } from '../symbols.ts';
import { wayIds, waySettings, waysOf } from '../ways.ts';

/** Screws and bar of one way; the wires' own terminations are counted with the wires. */
const WAY_OHM = 1e-4;

/** Rows of screw terminals, each joining what comes from the left with what leaves on the right. */
export const terminalStrip = definePart({
  kind: 'terminal-strip',
  title: 'Terminal strip',
  group: 'Join',
  about: 'Screw terminals in a row: each joins a wire on its left with one on its right, and can be undone to measure.',
  words: ['block', 'screw', 'barrier strip'],
  letter: 'X',
  settings: [waySettings(12), amount('ratedA', 'Rated current', 'A', [1, 15, 100], 'common practice, no source: read it on the strip')],
  terminals: (s) => [
    ...wayIds('a', s).map((id, i) => ({
      id,
      label: `${i + 1}`,
      title: `Way ${i + 1}, left`,
      side: 'left' as const,
      form: 'screw' as const,
      role: 'any' as const,
    })),
    ...wayIds('b', s).map((id, i) => ({
      id,
      label: `${i + 1}`,
      title: `Way ${i + 1}, right`,
      side: 'right' as const,
      form: 'screw' as const,
      role: 'any' as const,
    })),
  ],
  symbol: (s) => {
    const n = waysOf(s);
    const box = moduleBox({ left: wayIds('a', s), right: wayIds('b', s) }, 80, 60);
    const first = (box.h - (n - 1) * 20) / 2;
    const screws = Array.from({ length: n }, (_, i) => first + i * 20).flatMap(
      (y) =>
        [
          { t: 'line', pts: [30, y, 50, y], ink: 'ink', w: 1.5 },
          { t: 'circle', x: 27, y, r: 3, fill: 'paper', ink: 'ink', lw: 1 },
          { t: 'circle', x: 53, y, r: 3, fill: 'paper', ink: 'ink', lw: 1 },
        ] as const,
    );
    return { ...box, primitives: [...box.primitives, ...screws] };
  },
  behave: (s, { wired }) => ({
    elements: wayIds('a', s).flatMap((a, i) => {
      const b = `b${i + 1}`;
      return wired(a) || wired(b) ? [{ kind: 'resistor' as const, id: `w${i + 1}`, a, b, ohm: WAY_OHM }] : [];
    }),
  }),
  facts: (s) => ({ links: wayIds('a', s).map((a, i) => ({ a, b: `b${i + 1}`, type: 'join' as const })) }),
  subtitle: (s) => `${waysOf(s)} ways`,
  spec: (s) => `${waysOf(s)} ways, ${s.num('ratedA')} A or more, screws with wire protection`,
});
