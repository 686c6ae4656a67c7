import type { Primitive, SymbolDrawing } from '../../drawing/types.ts';
import type { Band } from '../../plan/types.ts';
import { definePart } from '../definePart.ts';
import { amount, yesNo } from '../settings.ts';
import { bankFarad, bankJoule, bankOhm, bankV, cellsOf } from '../storeFigures.ts';
import { plus, strokes } from '../symbols.ts';
import type { PartFacts, Settings } from '../types.ts';
import { plain, withUnit } from '../values.ts';

const CELL = '2.7 V cell of 100 F; a maker’s sheet, read';
/** From this energy on a store counts as a source that needs its own fuse, J (judgement of the house, no source). */
const STORE_J = 20;
/** Series resistance at the end of life, times the new one (a 2.7 V cell's data sheet, read). */
const OLD_OHM = 2;

const W = 100;
const H = 40;

/** Supercapacitor bank that carries the computer after its supply has gone. */
export const store = definePart({
  kind: 'store',
  title: 'Supercapacitors',
  group: 'Convert',
  about: 'A row of very large capacitors that carries the computer while it stops, even with the battery gone, and gives hundreds of amps when shorted.',
  words: ['supercapacitor', 'store', 'bank', 'hold-up', 'backup', 'cells', 'UPS'],
  letter: 'C',
  settings: [
    amount('cells', 'Cells in series', '', [1, 6, 24], 'six make 16.2 V, over 13.5 V by a sixth; calculated'),
    amount('cellFarad', 'One cell', 'F', [0.1, 100, 5000], CELL),
    amount('cellV', 'One cell is rated', 'V', [1, 2.7, 3], CELL),
    yesNo('balanced', 'Balanced', true, 'banks sold ready-made carry balancers; common practice, no source', {
      help: 'Without balancers the smallest cell gets more than its share.',
    }),
    amount('esrOhm', 'Series resistance of a cell', 'ohm', [0.0001, 0.01, 10], 'cell of 100 F, from memory', { help: 'Twice as much at the end of its life.' }),
    amount('tolDown', 'A cell may be smaller by', '%', [0, 0.1, 0.5], 'usual tolerance −10 / +20 %; makers’ sheets, from memory', { rare: true }),
    amount('tolUp', 'A cell may be larger by', '%', [0, 0.2, 0.5], 'usual tolerance −10 / +20 %; makers’ sheets, from memory', { rare: true }),
    amount('leakA', 'Leakage and balancing at rated voltage', 'A', [1e-6, 0.0005, 0.1], '0.3 mA for a 100 F cell after three days, from memory', {
      rare: true,
    }),
    amount('eolShare', 'Left at the end of its life', '%', [0.3, 0.7, 1], 'down to 70..80 % of the capacitance; a 2.7 V cell’s data sheet, read', {
      rare: true,
    }),
    amount('ratedC', 'Rated temperature', 'degC', [40, 65, 105], '2.7 V up to 65 °C, 2.3 V up to 85 °C; a 2.7 V cell’s data sheet, read', { rare: true }),
    amount('lifeH', 'Life at that temperature', 'h', [500, 1500, 100_000], 'a 2.7 V cell’s data sheet, read', { rare: true }),
  ],
  variants: [
    { id: '6-of-100', title: '6 × 100 F, 16.2 V', settings: {} },
    { id: '6-of-50', title: '6 × 50 F, 16.2 V', settings: { cellFarad: 50, esrOhm: 0.015, leakA: 0.0003 } },
    { id: '3-of-100', title: '3 × 100 F, 8.1 V', settings: { cells: 3 } },
  ],
  terminals: () => [
    { id: '+', label: '+', title: 'Plus side', side: 'left', form: 'lead', role: 'any', required: true },
    { id: '-', label: '−', title: 'Minus side', side: 'right', form: 'lead', role: 'any', required: true },
  ],
  symbol: (): SymbolDrawing => ({
    w: W,
    h: H,
    primitives: drawing(),
    pads: { '+': { x: 0, y: H / 2, side: 'left' }, '-': { x: W, y: H / 2, side: 'right' } },
  }),
  // At rest it is its leakage and holds what the circuit at rest says, like every capacitor; how long it carries is a matter of time.
  behave: (s, { band }) => ({
    elements: [
      {
        kind: 'capacitor',
        id: 'c',
        a: '+',
        b: '-',
        farad: bankFarad(s) * shareOf(s, band),
        esrOhm: bankOhm(s) * (band === 'low' ? OLD_OHM : 1),
        leakOhm: bankV(s) / s.num('leakA'),
        tol: { farad: [1 - s.num('tolDown'), 1 + s.num('tolUp')], esrOhm: [0.5, 1], leakOhm: [1, 10] },
      },
    ],
  }),
  facts: (s) => {
    const storeJ = bankJoule(s, bankV(s));
    const ohm = bankOhm(s);
    const facts: PartFacts = {
      links: [{ a: '+', b: '-', type: 'capacitor', ohm }],
      storeJ,
      polar: [{ plus: '+', minus: '-', what: 'supercapacitors', reverseV: 0 }],
    };
    if (storeJ < STORE_J) return facts;
    return { ...facts, sources: [{ terminal: '+', returns: '-', kind: 'store', nominalV: bankV(s), limitA: null, maxOhm: OLD_OHM * ohm, minOhm: 0.5 * ohm }] };
  },
  subtitle: (s) => `${withUnit(bankFarad(s), 'F')} ${plain(bankV(s))} V`,
  spec: (s) =>
    `Supercapacitors, ${cellsOf(s)} cells of ${withUnit(s.num('cellFarad'), 'F')} ${plain(s.num('cellV'))} V in series${s.flag('balanced') ? ', balanced' : ''}: ${withUnit(bankFarad(s), 'F')}, ${plain(bankV(s))} V, at most ${withUnit(bankOhm(s), 'ohm')}, ${plain(s.num('ratedC'))} °C`,
  meterPoints: (s) => [{ plus: '+', minus: '-', what: `Below its ${plain(bankV(s))} V; and under 0.5 V before anything is touched` }],
});

/** Share of the nominal capacitance: worn out in the low band, as large as it comes in the high one. */
function shareOf(s: Settings, band: Band): number {
  if (band === 'low') return s.num('eolShare');
  return band === 'high' ? 1 + s.num('tolUp') : 1;
}

/** Three cells in a row inside their case; a gap in the row stands for the others. */
function drawing(): Primitive[] {
  const y = H / 2;
  const cell = (x: number): number[][] => [
    [x - 3, y - 9, x - 3, y + 9],
    [x + 3, y - 9, x + 3, y + 9],
  ];
  return [
    { t: 'rect', x: 8, y: 3, w: W - 16, h: H - 6, r: 4, fill: 'paper', ink: 'ink', lw: 1 },
    ...strokes([[0, y, 25, y], ...cell(28), [31, y, 43, y], ...cell(46), [75, y, W, y], ...cell(72)]),
    { t: 'line', pts: [49, y, 69, y], ink: 'ink', w: 1.5, dash: [2, 3] },
    ...plus(18, y - 9),
  ];
}
