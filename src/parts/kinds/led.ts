import { LED_MAX_A, LEDS, type LedColour } from '../../trade/semiconductors.ts';
import { definePart } from '../definePart.ts';
import { amount, choice } from '../settings.ts';
import { inlineBody, ledGlyph } from '../symbols.ts';
import type { Settings } from '../types.ts';
import { plain, withUnit } from '../values.ts';

/** Emission coefficient and series resistance of indicator LEDs (fitted to 0.2 V between 2 and 20 mA, from memory). */
const N = 2.5;
const SERIES_OHM = 3;
/** What an LED stands the wrong way round, V (from memory of LED makers' sheets). */
const REVERSE_V = 5;

const COLOURS: readonly LedColour[] = ['red', 'yellow', 'green', 'pure-green', 'blue', 'white', 'infrared'];

/** An indicator LED; its series resistor is a part of its own. */
export const led = definePart({
  kind: 'led',
  title: 'LED',
  group: 'Sense',
  about: 'A small indicator lamp. It needs a resistor in series and the right way round.',
  words: ['lamp', 'indicator', 'light', 'diode'],
  letter: 'P',
  settings: [
    choice(
      'colour',
      'Colour',
      COLOURS.map((c) => [c, LEDS[c].title] as const),
      'what you like',
    ),
    amount('vF', 'Forward voltage at 20 mA', 'V', [0, 0, 4], '0 = by its colour: red 2.0 V, blue and white 3.2 V (read in part descriptions)', { rare: true }),
    amount('ratedA', 'Greatest current', 'A', [0.001, LED_MAX_A, 1], 'common indicator LEDs, 20 mA (read)'),
  ],
  terminals: () => [
    { id: 'A', label: 'A', title: 'Anode, to plus', side: 'left', form: 'lead', role: 'any', required: true, flow: 'in' },
    { id: 'K', label: 'K', title: 'Cathode, to minus', side: 'right', form: 'lead', role: 'any', required: true, flow: 'out' },
  ],
  symbol: () => inlineBody('A', 'K', ledGlyph(30, 10), 8),
  behave: (s, { ambientC }) => {
    const { vF, least, most } = forward(s);
    return {
      elements: [{ kind: 'diode', id: 'led', a: 'A', b: 'K', vF, iF: 0.02, n: N, tC: ambientC, ohm: SERIES_OHM, tol: { vF: [least / vF, most / vF] } }],
    };
  },
  facts: () => ({ links: [{ a: 'A', b: 'K', type: 'diode' }], polar: [{ plus: 'A', minus: 'K', what: 'LED', reverseV: REVERSE_V }] }),
  subtitle: (s) => LEDS[s.str('colour') as LedColour].title.toLowerCase(),
  spec: (s) => `LED, ${LEDS[s.str('colour') as LedColour].title.toLowerCase()}, ${plain(forward(s).vF)} V, ${withUnit(s.num('ratedA'), 'A')} or more`,
});

/** Forward voltage at 20 mA with its limits, V: as typed, else by colour. */
function forward(s: Settings): { readonly vF: number; readonly least: number; readonly most: number } {
  const row = LEDS[s.str('colour') as LedColour];
  const vF = s.num('vF') || row.typV;
  return { vF, least: (vF * row.minV) / row.typV, most: (vF * row.maxV) / row.typV };
}
