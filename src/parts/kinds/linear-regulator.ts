import { LINEAR_7805 as L } from '../../trade/converters.ts';
import { definePart } from '../definePart.ts';
import { amount } from '../settings.ts';
import { moduleBox } from '../symbols.ts';
import { plain, withUnit } from '../values.ts';

const SHEET = '7805 data sheet, read';
/** Output resistance, ohm, and what one diode drop of reversed supply does: it conducts (7805 data sheet, from memory). */
const OUT_OHM = 0.017;

/** Three-legged regulator: simple, and it burns the difference. */
export const linearRegulator = definePart({
  kind: 'linear-regulator',
  title: 'Linear regulator',
  group: 'Convert',
  about: 'Holds its output steady by turning the rest into heat: right for some tens of milliamps, wrong for a computer.',
  words: ['7805', 'LDO', 'regulator', 'linear', '5 V'],
  letter: 'T',
  settings: [
    amount('setV', 'Output', 'V', [1, L.setV, 30], SHEET),
    amount('setTol', 'Output may be off by', '%', [0.001, L.setTol, 0.2], SHEET),
    amount('ratedA', 'Rated output current', 'A', [0.01, L.ratedA, 10], SHEET),
    amount('limitMaxA', 'Current limit, greatest', 'A', [0.01, L.limitMaxA, 20], SHEET, { rare: true }),
    amount('dropV', 'Input must exceed output by', 'V', [0.05, L.dropV, 5], SHEET),
    amount('absMaxV', 'Highest input for a moment', 'V', [5, L.absMaxV, 100], SHEET),
    amount('quiescentA', 'Idle current', 'A', [0, L.quiescentA, 0.1], '7805 data sheet, typical, from memory'),
    amount('rthKPerW', 'Warms up by', 'K/W', [1, L.rthKPerW, 300], 'bare package, the cautious of three printed figures, read'),
    amount('tjMaxC', 'May get as warm as', 'degC', [50, L.tjMaxC, 175], SHEET, { rare: true }),
  ],
  terminals: () => [
    { id: 'in', label: 'in', title: 'Supply in', side: 'left', form: 'lead', role: 'supply', flow: 'in', required: true },
    { id: 'out', label: 'out', title: 'Output', side: 'right', form: 'lead', role: 'rail5', flow: 'out', required: true, nominalV: 5 },
    { id: 'gnd', label: 'gnd', title: 'Ground', side: 'bottom', form: 'lead', role: 'ground', required: true },
  ],
  symbol: () => moduleBox({ left: ['in'], right: ['out'], bottom: ['gnd'] }, 120, 60),
  behave: (s) => ({
    elements: [
      {
        kind: 'linear',
        id: 'reg',
        in: 'in',
        gnd: 'gnd',
        out: 'out',
        setV: s.num('setV'),
        outOhm: OUT_OHM,
        limitA: s.num('limitMaxA'),
        dropV: s.num('dropV'),
        quiescentA: s.num('quiescentA'),
        tol: { setV: s.num('setTol'), quiescentA: [0.7, L.quiescentMaxA / L.quiescentA] },
      },
    ],
  }),
  facts: (s) => ({
    sources: [{ terminal: 'out', returns: 'gnd', kind: 'converter', nominalV: s.num('setV'), limitA: s.num('limitMaxA'), maxOhm: OUT_OHM, minOhm: OUT_OHM }],
    loads: [
      {
        plus: 'in',
        minus: 'gnd',
        label: 'input',
        nominalV: 12,
        minV: s.num('setV') + s.num('dropV'),
        maxV: s.num('absMaxV'),
        absMaxV: s.num('absMaxV'),
        peakA: 0,
        heatA: 0,
      },
    ],
    polar: [{ plus: 'in', minus: 'gnd', what: 'regulator', reverseV: 0 }],
  }),
  subtitle: (s) => `→ ${plain(s.num('setV'))} V, ${plain(s.num('ratedA'))} A`,
  spec: (s) =>
    `Linear regulator ${plain(s.num('setV'))} V ±${plain(100 * s.num('setTol'))} %, ${plain(s.num('ratedA'))} A, stands ${plain(s.num('absMaxV'))} V in; idle ${withUnit(s.num('quiescentA'), 'A')}`,
  meterPoints: (s) => [
    { plus: 'in', minus: 'gnd', what: 'What arrives at the regulator' },
    { plus: 'out', minus: 'gnd', what: `${plain(s.num('setV'))} V` },
  ],
});
