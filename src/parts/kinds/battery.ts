import { definePart } from '../definePart.ts';
import { amount } from '../settings.ts';
import { moduleBox } from '../symbols.ts';
import { byBand, withUnit } from '../values.ts';

/** The vehicle's battery: the one source all lines hang on. Its charge and size are facts of the vehicle. */
export const battery = definePart({
  kind: 'battery',
  title: 'Battery',
  group: 'Feeds',
  about: "The vehicle's own battery, with its two posts. Everything on the plan is fed from here in the end.",
  words: ['accumulator', 'post', 'supply', '30', '31'],
  owner: 'vehicle',
  letter: 'G',
  settings: [
    amount('sourceMinOhm', 'Least resistance at the posts', 'ohm', [0.0005, 0.005, 0.2], 'starter battery of 60 Ah and more; from memory', {
      help: 'Sets the greatest current a short circuit here can draw.',
      rare: true,
    }),
    amount('sourceMaxOhm', 'Greatest resistance at the posts', 'ohm', [0.0005, 0.03, 0.5], 'cold, aged battery with its clamps; from memory', {
      help: 'Sets the least current a short circuit here can draw.',
      rare: true,
    }),
  ],
  terminals: () => [
    { id: '+', label: '+', title: 'Positive post', side: 'right', form: 'ring', role: 'supply', flow: 'out' },
    { id: '-', label: '−', title: 'Negative post', side: 'bottom', form: 'ring', role: 'ground' },
  ],
  symbol: () => moduleBox({ right: ['+'], bottom: ['-'] }, 100, 60, [], 'vehicle'),
  behave: (s, { band, supplyV }) => ({
    elements: [
      { kind: 'source', id: 'emf', a: '@battery', b: '@0', volt: supplyV, ohm: byBand(band, s.num('sourceMaxOhm'), s.num('sourceMinOhm')) },
      { kind: 'resistor', id: 'plus', a: '+', b: '@battery', ohm: 1e-4 },
      { kind: 'resistor', id: 'minus', a: '-', b: '@0', ohm: 1e-4 },
    ],
  }),
  facts: (s) => ({
    links: [
      { a: '+', b: '@battery', type: 'join' },
      { a: '-', b: '@0', type: 'join' },
    ],
    sources: [
      {
        terminal: '+',
        returns: '-',
        kind: 'battery',
        nominalV: 12,
        limitA: null,
        maxOhm: s.num('sourceMaxOhm'),
        minOhm: s.num('sourceMinOhm'),
        line: '30',
      },
    ],
    tap: { terminal: '+', line: '30', what: 'battery post' },
  }),
  spec: (s) => `Vehicle battery, ${withUnit(s.num('sourceMinOhm'), 'ohm')} to ${withUnit(s.num('sourceMaxOhm'), 'ohm')} at the posts`,
  meterPoints: () => [{ plus: '+', minus: '-', what: 'Battery at its posts' }],
});
