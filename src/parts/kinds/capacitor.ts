import { definePart } from '../definePart.ts';
import { amount, yesNo } from '../settings.ts';
import { capacitorGlyph, inlineBody } from '../symbols.ts';
import type { PartFacts, Settings } from '../types.ts';
import { plain, withUnit } from '../values.ts';

/** From this energy on a store counts as a source that needs its own fuse, J (judgement of the house, no source). */
const STORE_J = 20;
/** Leakage of an electrolytic after minutes under voltage, A per F and V: 0.01 C V (makers' catalogues, from memory). */
const LEAK_PER_FV = 0.01;
/** Insulation of film and ceramic capacitors, s = ohm x F (data sheets, from memory). */
const INSULATION_S = 500;

/** Capacitor: bulk beside a converter, filter at a button, or store. */
export const capacitor = definePart({
  kind: 'capacitor',
  title: 'Capacitor',
  group: 'Convert',
  about: 'Takes up short dips and spikes: a large one beside the converter, a small one at a button.',
  words: ['bulk', 'electrolytic', 'filter', 'ceramic', 'store', 'supercapacitor'],
  letter: 'C',
  settings: [
    amount('farad', 'Capacitance', 'F', [1e-12, 470e-6, 1000], 'bulk beside a 5 V converter; common practice, no source'),
    amount('ratedV', 'Rated voltage', 'V', [1, 50, 1000], 'next size over the clamped surge of a 12 V vehicle; common practice, no source', {
      help: 'Never lower than what can reach it.',
    }),
    amount('esrOhm', 'Series resistance', 'ohm', [0.0001, 0.1, 1000], 'low-impedance electrolytic of this size, from memory'),
    amount('tol', 'Capacitance may be off by', '%', [0.001, 0.2, 0.8], 'usual tolerance of electrolytics (IEC 60062 letter M, from memory)', { rare: true }),
    yesNo('polarised', 'Has a plus side', true, 'electrolytics have one; ceramic and film do not'),
    amount('leakA', 'Leakage at rated voltage', 'A', [0, 0, 0.1], '0 = by type: 0.01 C V for electrolytics, 500 s insulation for others (from memory)', {
      rare: true,
    }),
    amount('ratedC', 'Rated temperature', 'degC', [50, 105, 150], '105 °C type; common practice, no source', { rare: true }),
    amount('lifeH', 'Life at that temperature', 'h', [500, 2000, 100_000], 'usual 105 °C electrolytic, from memory', { rare: true }),
  ],
  variants: [
    { id: 'bulk', title: '470 µF, 50 V', settings: {} },
    { id: 'low-esr', title: '1000 µF, 16 V, low impedance', settings: { farad: 1e-3, ratedV: 16, esrOhm: 0.03 } },
    { id: 'filter', title: '100 nF, 50 V', settings: { farad: 100e-9, ratedV: 50, esrOhm: 0.02, tol: 0.1, polarised: false } },
    { id: 'store', title: '25 F, 5.4 V store', settings: { farad: 25, ratedV: 5.4, esrOhm: 0.05, leakA: 50e-6, ratedC: 65, lifeH: 1000 } },
  ],
  terminals: (s) => [
    { id: '+', label: s.flag('polarised') ? '+' : '', title: 'Plus side', side: 'left', form: 'lead', role: 'any', required: true },
    { id: '-', label: s.flag('polarised') ? '−' : '', title: 'Minus side', side: 'right', form: 'lead', role: 'any', required: true },
  ],
  symbol: (s) => inlineBody('+', '-', capacitorGlyph(30, 10, s.flag('polarised')), 3),
  behave: (s) => ({
    elements: [
      {
        kind: 'capacitor',
        id: 'c',
        a: '+',
        b: '-',
        farad: s.num('farad'),
        esrOhm: s.num('esrOhm'),
        leakOhm: leakOhm(s),
        tol: { farad: s.num('tol'), esrOhm: [0.3, 1], leakOhm: [1, 10] },
      },
    ],
  }),
  facts: (s) => {
    const storeJ = 0.5 * s.num('farad') * s.num('ratedV') ** 2;
    const facts: PartFacts = {
      links: [{ a: '+', b: '-', type: 'capacitor', ohm: s.num('esrOhm') }],
      storeJ,
      ...(s.flag('polarised') ? { polar: [{ plus: '+', minus: '-', what: 'electrolytic', reverseV: 0 }] } : {}),
    };
    if (storeJ < STORE_J) return facts;
    const esr = s.num('esrOhm');
    return { ...facts, sources: [{ terminal: '+', returns: '-', kind: 'store', nominalV: s.num('ratedV'), limitA: null, maxOhm: 2 * esr, minOhm: 0.5 * esr }] };
  },
  subtitle: (s) => `${withUnit(s.num('farad'), 'F')} ${plain(s.num('ratedV'))} V`,
  spec: (s) =>
    `Capacitor ${withUnit(s.num('farad'), 'F')}, at least ${plain(s.num('ratedV'))} V, ${plain(s.num('ratedC'))} °C${s.flag('polarised') ? ', electrolytic' : ''}, at most ${withUnit(s.num('esrOhm'), 'ohm')}`,
  meterPoints: (s) => [{ plus: '+', minus: '-', what: `Below its ${plain(s.num('ratedV'))} V; and empty before anything is touched` }],
});

function leakOhm(s: Settings): number {
  const v = s.num('ratedV');
  const typed = s.num('leakA');
  if (typed > 0) return v / typed;
  return s.flag('polarised') ? 1 / (LEAK_PER_FV * s.num('farad')) : INSULATION_S / s.num('farad');
}
