import { definePart } from '../definePart.ts';
import { amount } from '../settings.ts';
import { inductorGlyph, inlineBody } from '../symbols.ts';
import { copperFactor, plain, withUnit } from '../values.ts';

/** Series inductor ahead of a converter or a radio: keeps switching noise apart. */
export const choke = definePart({
  kind: 'choke',
  title: 'Choke',
  group: 'Convert',
  about: 'Lets direct current through and holds noise back: between the supply and a converter that disturbs the radio.',
  words: ['inductor', 'filter', 'noise', 'interference', 'coil'],
  letter: 'L',
  settings: [
    amount('henry', 'Inductance', 'H', [1e-8, 22e-6, 10], 'supply filter of a few amps; common practice, no source'),
    amount('ohm', 'Winding resistance at 20 °C', 'ohm', [1e-4, 0.05, 100], 'typical of 22 µH, 5 A drum cores, from memory'),
    amount('ratedA', 'Rated current', 'A', [0.01, 5, 100], 'typical of 22 µH drum cores, from memory'),
  ],
  terminals: () => [
    { id: '1', label: '1', title: 'Side towards the source', side: 'left', form: 'lead', role: 'any', required: true },
    { id: '2', label: '2', title: 'Side towards the load', side: 'right', form: 'lead', role: 'any', required: true },
  ],
  symbol: () => inlineBody('1', '2', inductorGlyph(30, 10), 16),
  behave: (s, { ambientC }) => ({
    elements: [{ kind: 'inductor', id: 'l', a: '1', b: '2', henry: s.num('henry'), ohm: hotOhm(s.num('ohm'), ambientC), tol: { henry: 0.2, ohm: 0.2 } }],
  }),
  facts: (s) => ({ links: [{ a: '1', b: '2', type: 'conductor', ohm: s.num('ohm') }] }),
  subtitle: (s) => withUnit(s.num('henry'), 'H'),
  spec: (s) => `Choke ${withUnit(s.num('henry'), 'H')}, ${plain(s.num('ratedA'))} A, at most ${withUnit(s.num('ohm'), 'ohm')}`,
  meterPoints: () => [{ plus: '1', minus: '2', what: 'Drop across the choke under load' }],
});

function hotOhm(ohm: number, tempC: number): number {
  return Math.max(1e-4, ohm * copperFactor(tempC));
}
