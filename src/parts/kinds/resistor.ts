import { definePart } from '../definePart.ts';
import { amount } from '../settings.ts';
import { inlineBody, resistorGlyph } from '../symbols.ts';
import { plain, withUnit } from '../values.ts';

/** A fixed resistor with leads. */
export const resistor = definePart({
  kind: 'resistor',
  title: 'Resistor',
  group: 'Sense',
  about: 'Limits current: ahead of an LED, as a pull-up, or in line with a button.',
  words: ['ohm', 'pull-up', 'series', 'divider'],
  letter: 'R',
  settings: [
    amount('ohm', 'Resistance', 'Ω', [0.1, 2200, 10e6], 'IEC 60063 preferred values; 2.2 kohm suits a sensing LED on 12 V (common practice, no source)', {
      automatic: true,
      stocked: [100, 330, 470, 680, 1000, 2200, 3300, 4700, 10000, 22000, 33000, 47000, 100000],
    }),
    amount('tol', 'Tolerance', '%', [0.001, 0.05, 0.2], 'common carbon-film parts, 5 %', { stocked: [0.01, 0.05, 0.1] }),
    amount('ratedW', 'Power rating at 70 °C', 'W', [0.0625, 0.25, 50], 'common leaded size', { stocked: [0.25, 0.5, 1, 2, 3, 5] }),
  ],
  terminals: () => [
    { id: '1', label: '1', title: 'End 1', side: 'left', form: 'lead', role: 'any', required: true },
    { id: '2', label: '2', title: 'End 2', side: 'right', form: 'lead', role: 'any', required: true },
  ],
  symbol: () => inlineBody('1', '2', resistorGlyph(30, 10), 16),
  behave: (s) => ({ elements: [{ kind: 'resistor', id: 'r', a: '1', b: '2', ohm: s.num('ohm'), tol: { ohm: s.num('tol') } }] }),
  facts: (s) => ({ links: [{ a: '1', b: '2', type: 'resistor', ohm: s.num('ohm') }] }),
  subtitle: (s) => withUnit(s.num('ohm'), 'Ω'),
  spec: (s) => `${withUnit(s.num('ohm'), 'Ω')} ± ${plain(s.num('tol') * 100)} %, ${withUnit(s.num('ratedW'), 'W')} at 70 °C`,
  meterPoints: (s) => [{ plus: '1', minus: '2', what: `resistance with the supply off: ${withUnit(s.num('ohm'), 'Ω')}` }],
});
