import { definePart } from '../definePart.ts';
import { amount } from '../settings.ts';
import { moduleBox } from '../symbols.ts';
import { withUnit } from '../values.ts';

/** The vehicle radio's sound input. Its screen is at body potential: where ground loops close. */
export const radioAux = definePart({
  kind: 'radio-aux',
  title: 'Radio sound input',
  group: 'Sound and picture',
  about: "The sound input of the vehicle's radio. Its screen is joined to the body inside the radio, which closes ground loops.",
  words: ['aux', 'audio', 'line', 'input', 'radio', 'jack'],
  owner: 'vehicle',
  letter: 'P',
  settings: [
    amount('maxV', 'Greatest input, rms', 'V', [0.05, 2, 10], 'common practice, no source'),
    amount('inputOhm', 'Input resistance', 'ohm', [100, 10_000, 1_000_000], 'line input, 10 kΩ to 50 kΩ; common practice, no source', { rare: true }),
  ],
  terminals: () => [{ id: 'aux', label: '', title: 'Sound input', side: 'left', form: 'jack', role: 'audio', flow: 'in' }],
  symbol: () => moduleBox({ left: ['aux'] }, 140, 60, [], 'vehicle'),
  behave: (s) => ({
    elements: [
      { kind: 'resistor', id: 'input', a: 'aux', b: 'aux~0', ohm: s.num('inputOhm'), tol: { ohm: [0.8, 5] } },
      { kind: 'resistor', id: 'screen', a: 'aux~0', b: '@chassis', ohm: 0.005 },
    ],
  }),
  facts: (s) => ({
    links: [
      { a: 'aux', b: 'aux~0', type: 'resistor', ohm: s.num('inputOhm') },
      { a: 'aux~0', b: '@chassis', type: 'conductor', ohm: 0.005 },
    ],
  }),
  subtitle: (s) => `up to ${withUnit(s.num('maxV'), 'V')} rms`,
  spec: (s) => `Vehicle radio's sound input, at most ${withUnit(s.num('maxV'), 'V')} rms`,
});
