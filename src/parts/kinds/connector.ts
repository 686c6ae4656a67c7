import type { Primitive } from '../../drawing/types.ts';
import { TERMINATION_OHM } from '../../trade/conductors.ts';
import { definePart } from '../definePart.ts';
import { amount, words, yesNo } from '../settings.ts';
import { edgePads, mark, stroke } from '../symbols.ts';
import type { Settings } from '../types.ts';
import { wayIds, waySettings, waysOf } from '../ways.ts';

const W = 60;
/** Room above the first cavity for the latch. */
const TOP = 10;

/**
 * A pair of plug and socket. The symbol is the face of the socket as the wires enter it: numbered cavities in a
 * housing, the latch on its short side above cavity 1.
 */
export const connector = definePart({
  kind: 'connector',
  title: 'Connector',
  group: 'Join',
  about: 'Plug and socket: lets a part be taken out again without cutting wires. Numbers are the cavities, the tab is the latch.',
  words: ['plug', 'socket', 'coupling', 'housing'],
  letter: 'X',
  settings: [
    waySettings(16),
    amount('contactA', 'Rated current per contact', 'A', [0.1, 5, 100], 'common practice, no source: take the maker’s figure for your wire size'),
    yesNo('aged', 'Aged contacts', false, '5 mohm new, 10 mohm aged: common practice, no source', {
      help: 'Contacts that have seen years of heat, damp or shaking have about twice the resistance.',
      rare: true,
    }),
    words('family', 'Family', '', 'as printed on the housing'),
  ],
  terminals: (s) =>
    (['a', 'b'] as const).flatMap((letter) =>
      wayIds(letter, s).map((id, i) => ({
        id,
        label: `${i + 1}`,
        title: `Cavity ${i + 1}, ${letter === 'a' ? 'left' : 'right'} half`,
        side: letter === 'a' ? ('left' as const) : ('right' as const),
        form: 'crimp' as const,
        role: 'any' as const,
      })),
    ),
  symbol: (s) => {
    const n = waysOf(s);
    const h = Math.max(60, (n + 1) * 20);
    const pads = edgePads({ left: wayIds('a', s), right: wayIds('b', s) }, W, h);
    const first = (h - (n - 1) * 20) / 2;
    const face: Primitive[] = [
      { t: 'rect', x: W / 2 - 9, y: 0, w: 18, h: TOP, r: 2, fill: 'paper', ink: 'ink', lw: 1.5 },
      stroke([W / 2 - 5, 4, W / 2 + 5, 4], 'ink', 1),
      { t: 'rect', x: 12, y: TOP - 4, w: W - 24, h: h - TOP + 4, r: 4, fill: 'paper', ink: 'ink', lw: 1.5 },
    ];
    for (let i = 0; i < n; i++) {
      const y = first + i * 20;
      face.push(
        stroke([0, y, 12, y]),
        stroke([W - 12, y, W, y]),
        { t: 'rect', x: W / 2 - 7, y: y - 7, w: 14, h: 14, r: 2, ink: 'ink', lw: 1 },
        mark(W / 2, y, `${i + 1}`, 9),
      );
    }
    return { w: W, h, primitives: face, pads };
  },
  behave: (s, { wired }) => ({
    elements: wayIds('a', s).flatMap((a, i) => {
      const b = `b${i + 1}`;
      return wired(a) || wired(b) ? [{ kind: 'resistor' as const, id: `w${i + 1}`, a, b, ohm: contactOhm(s) }] : [];
    }),
  }),
  facts: (s) => ({ links: wayIds('a', s).map((a, i) => ({ a, b: `b${i + 1}`, type: 'conductor' as const, ohm: contactOhm(s) })) }),
  subtitle: (s) => s.str('family'),
  spec: (s) => `${s.str('family') || 'Latching connector'}, ${waysOf(s)} ways, ${s.num('contactA')} A per contact`,
});

function contactOhm(s: Settings): number {
  return s.flag('aged') ? TERMINATION_OHM.plugAged : TERMINATION_OHM.plugNew;
}
