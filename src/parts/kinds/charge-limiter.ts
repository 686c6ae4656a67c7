import type { Diode } from '../../circuit/types.ts';
import { definePart } from '../definePart.ts';
import { amount, yesNo } from '../settings.ts';
import { guardedAgainst } from '../switchModule.ts';
import { moduleBox } from '../symbols.ts';
import { plain, withUnit } from '../values.ts';

/**
 * An ideal diode is a transistor steered to about 20 mV (controllers' sheets, from memory); what it loses beyond that is
 * its resistance. A junction of so small an emission coefficient blocks as well as it does.
 */
const IDEAL = { n: 0.02, volt: 0.02 } as const;
/** From this drop on it is a Schottky diode: so large no transistor is made (catalogue habit, from memory). */
const SCHOTTKY = { fromV: 0.25, n: 1.05, ohm: 1e-3 } as const;
/** Resistance between charger and store terminal, ohm (common practice, no source). */
const OUT_OHM = 0.05;

/** Fills a store with a steady small current and feeds the load from the supply, or from the store when that is gone. */
export const chargeLimiter = definePart({
  kind: 'charge-limiter',
  title: 'Charge limiter',
  group: 'Convert',
  about: 'Fills the supercapacitors with a small steady current, feeds the load from the supply and, when that is gone, from the supercapacitors.',
  words: ['charger', 'constant current', 'ideal diode', 'supercapacitor', 'store', 'hold-up', 'backup'],
  letter: 'T',
  settings: [
    amount('limitA', 'Charges with', 'A', [0.01, 1, 20], 'fills 17 F to 13.5 V in four minutes; common practice, no source', {
      help: 'An empty store looks like a short circuit: without a limit it would hold the supply down.',
    }),
    amount('limitTol', 'That may be off by', '%', [0, 0.1, 0.5], 'common practice, no source', { rare: true }),
    amount('fullV', 'Charges up to', 'V', [1, 15, 60], '2.5 V a cell for six cells; common practice, no source', {
      help: 'Never more than the cells are rated for together.',
    }),
    amount('headroomV', 'Supply must exceed the store by', 'V', [0.02, 0.5, 5], 'common practice, no source', { rare: true }),
    amount('dropV', 'Drop to the load at its rated current', 'V', [0.02, 0.05, 1], 'ideal diode of 5 mΩ, calculated; from 0.25 V on it is a Schottky diode'),
    amount('ratedA', 'Rated current to the load', 'A', [0.1, 5, 50], 'common practice, no source'),
    amount('quiescentA', 'Takes for itself', 'A', [0, 0.001, 0.1], 'common practice, no source'),
    amount('inMaxV', 'Highest input for ever', 'V', [3, 36, 100], '40 V class part; common practice, no source', { rare: true }),
    amount('absMaxV', 'Highest input for a moment', 'V', [3, 40, 150], '40 V class part; common practice, no source', { help: 'Above this it is destroyed.' }),
    yesNo('reverseGuard', 'Stands a reversed supply', false, 'as stated on its sheet; assumed not', { rare: true }),
  ],
  variants: [
    { id: '1a', title: '1 A, ideal diodes', settings: {} },
    { id: '0.5a-schottky', title: '0.5 A, Schottky diodes', settings: { limitA: 0.5, dropV: 0.45, ratedA: 3 } },
  ],
  terminals: () => [
    { id: 'in', label: 'in', title: 'Supply in', side: 'left', form: 'screw', role: 'supply', flow: 'in', required: true },
    { id: 'gnd', label: 'gnd', title: 'Ground', side: 'left', form: 'screw', role: 'ground', required: true },
    { id: 'out', label: 'out', title: 'Supply to the load', side: 'right', form: 'screw', role: 'supply', flow: 'out', required: true },
    { id: 'store', label: 'store', title: 'To the plus side of the store', side: 'right', form: 'screw', role: 'supply', required: true },
  ],
  symbol: () => moduleBox({ left: ['in', 'gnd'], right: ['out', 'store'] }, 120, 60),
  behave: (s, { ambientC }) => {
    const diode = (id: string, a: string): Diode => ({ kind: 'diode', id, a, b: 'out', ...pathOf(s.num('dropV'), s.num('ratedA')), tC: ambientC });
    return {
      elements: [
        {
          kind: 'linear',
          id: 'charge',
          in: 'in',
          gnd: 'gnd',
          out: 'store',
          setV: s.num('fullV'),
          outOhm: OUT_OHM,
          limitA: s.num('limitA'),
          dropV: s.num('headroomV'),
          quiescentA: s.num('quiescentA'),
          tol: { limitA: s.num('limitTol') },
        },
        diode('fromIn', 'in'),
        diode('fromStore', 'store'),
      ],
    };
  },
  facts: (s) => ({
    links: [
      { a: 'in', b: 'store', type: 'diode' },
      { a: 'in', b: 'out', type: 'diode' },
      { a: 'store', b: 'out', type: 'diode' },
    ],
    loads: [
      {
        plus: 'in',
        minus: 'gnd',
        label: 'charging',
        nominalV: 12,
        minV: null,
        maxV: s.num('inMaxV'),
        absMaxV: s.num('absMaxV'),
        peakA: s.num('limitA') * (1 + s.num('limitTol')) + s.num('quiescentA'),
        // Filling takes minutes: for the heat of a minute it is a steady current.
        heatA: s.num('limitA') + s.num('quiescentA'),
      },
    ],
    polar: guardedAgainst(s, 'charge limiter'),
  }),
  subtitle: (s) => `${plain(s.num('limitA'))} A to ${plain(s.num('fullV'))} V`,
  spec: (s) =>
    `Charge limiter ${plain(s.num('limitA'))} A ±${plain(100 * s.num('limitTol'))} %, up to ${plain(s.num('fullV'))} V, with ideal diode to the load ${plain(s.num('ratedA'))} A, at most ${withUnit(s.num('dropV'), 'V')} drop; stands ${plain(s.num('absMaxV'))} V`,
  meterPoints: (s) => [
    { plus: 'store', minus: 'gnd', what: `Rises while it charges, never above ${plain(s.num('fullV'))} V` },
    { plus: 'out', minus: 'gnd', what: 'Stays up when the supply is taken away' },
  ],
});

/** The way to the load as a diode law through its drop at rated current. */
function pathOf(dropV: number, ratedA: number): Pick<Diode, 'vF' | 'iF' | 'n' | 'ohm' | 'tol'> {
  if (dropV >= SCHOTTKY.fromV) return { vF: dropV, iF: ratedA, n: SCHOTTKY.n, ohm: SCHOTTKY.ohm, tol: { vF: 0.15 } };
  const vF = Math.max(dropV, IDEAL.volt + 1e-4 * ratedA);
  return { vF, iF: ratedA, n: IDEAL.n, ohm: (vF - IDEAL.volt) / ratedA, tol: { ohm: [0.7, 1.6] } };
}
