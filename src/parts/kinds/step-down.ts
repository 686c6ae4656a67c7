import type { Element } from '../../circuit/types.ts';
import type { Values } from '../../plan/types.ts';
import { CONVERTERS, type ConverterClass, type ConverterFacts } from '../../trade/converters.ts';
import { definePart } from '../definePart.ts';
import { amount, choice, yesNo } from '../settings.ts';
import { guardedAgainst } from '../switchModule.ts';
import { moduleBox } from '../symbols.ts';
import type { Settings, Situation } from '../types.ts';
import { byBand, plain, withUnit } from '../values.ts';

const USUAL = CONVERTERS['60v-6a'];
const BASIS = `${USUAL.source}; ${USUAL.basis}`;

/** Enable input: threshold and pull resistor of usual parts, V and ohm (from memory). */
const ENABLE = { thresholdV: 2, ohm: 100_000 } as const;
/** What the enable input of the 2596 class stands, V (data sheet, from memory). */
const ENABLE_MAX_2596_V = 25;
/** Switch-off, s (common practice, no source). */
const STOP_S = 0.0005;
/** Series resistance of such a capacitor, ohm; it calms what a choke ahead would set swinging. Insulation, s = ohm x F: its leakage counts in the idle current (data sheets, from memory). */
const IN_ESR_OHM = 0.1;
const IN_INSULATION_S = 500;
/** Without a stated limit a converter is assumed to give so many times its rating. */
const UNKNOWN_LIMIT = 1.5;

/** Step-down converter from the vehicle's supply to 5 V. */
export const stepDown = definePart({
  kind: 'step-down',
  title: 'Step-down',
  group: 'Convert',
  about: 'Turns the vehicle supply into steady 5 V for the computer. It must stand the vehicle’s surges and start again after cranking.',
  words: ['converter', 'buck', 'regulator', 'supply', '5 V', 'DC-DC', 'power'],
  letter: 'T',
  settings: [
    amount('setV', 'Output set to', 'V', [1, USUAL.setV, 30], 'a little over 5 V makes up for wires and contacts; common practice, no source'),
    amount('setTol', 'Output may be off by', '%', [0.001, USUAL.setTol, 0.2], BASIS),
    amount('ratedA', 'Rated output current', 'A', [0.05, USUAL.ratedA, 50], BASIS),
    amount('limitMaxA', 'Current limit, greatest', 'A', [0, USUAL.limitMaxA, 100], `${BASIS}; 0 = not stated: 1.5 times the rating is assumed`, {
      help: 'What a wire behind it must carry for ever when there is no fuse in between.',
    }),
    amount('limitMinA', 'Current limit, least', 'A', [0, USUAL.limitMinA, 100], `${BASIS}; 0 = not stated: the rating`, { rare: true }),
    amount('dropV', 'Input must exceed output by', 'V', [0.05, USUAL.dropV, 10], `${BASIS}; built-in reverse guard included`),
    amount('startV', 'Starts above', 'V', [1, USUAL.startV, 60], `${BASIS}; greatest value`),
    amount('stopV', 'Stops below', 'V', [0.5, USUAL.stopV, 59], `${BASIS}; greatest value`),
    amount('uvloTol', 'Both may lie lower by', '%', [0, 0.05, 0.5], 'common practice, no source', { rare: true }),
    amount('softStartS', 'Comes up after', 's', [0.0001, 0.005, 0.5], 'soft start of usual parts 1 ms to 10 ms, from memory', { rare: true }),
    amount('inMaxV', 'Highest input for ever', 'V', [5, USUAL.inMaxV, 200], BASIS),
    amount('absMaxV', 'Highest input for a moment', 'V', [5, USUAL.absMaxV, 250], BASIS, { help: 'Above this it is destroyed.' }),
    amount('etaFull', 'Efficiency at rated current', '%', [0.3, USUAL.etaFull, 0.99], `${BASIS}, at 9 V input`),
    amount('etaLight', 'Efficiency at 0.1 A', '%', [0.1, USUAL.etaLight, 0.99], `${BASIS}, without the idle current`, { rare: true }),
    amount('quiescentA', 'Idle current, running', 'A', [0, USUAL.quiescentA, 0.2], BASIS),
    amount('standbyA', 'Idle current, switched off', 'A', [0, USUAL.standbyA, 0.1], BASIS),
    amount('outOhm', 'Output resistance', 'ohm', [0.0001, USUAL.outOhm, 1], BASIS, { rare: true }),
    yesNo('reverseGuard', 'Reverse guard built in', USUAL.reverseGuard, BASIS),
    yesNo('trimmer', 'Output set by a trimmer', USUAL.trimmer, BASIS, { help: 'A trimmer that shifts can destroy the computer: lock it with paint.' }),
    yesNo('trimmerSealed', 'The trimmer is sealed', false, 'as delivered it is not; common practice', {
      help: 'Set with nothing joined, sealed with lacquer, and measured again.',
    }),
    choice(
      'enActive',
      'Enable input runs it when',
      [
        ['high', 'high'],
        ['low', 'low'],
      ],
      'most parts run when high, the 2596 class when low (data sheets, read)',
      { rare: true },
    ),
    amount('inF', 'Capacitance at its input', 'F', [1e-6, 100e-6, 0.01], 'electrolytic on usual modules, 47 µF to 220 µF beside some ceramic; from memory', {
      rare: true,
    }),
    amount('pauseS', 'Pause after an overload', 's', [0, USUAL.pauseS, 10], `${BASIS}; 0 = it holds its limit instead of pausing`, {
      rare: true,
      help: 'Many converters switch off when their output is dragged down, wait, and try again: a large empty store may never fill that way.',
    }),
    amount('enMaxV', 'Enable input stands at most', 'V', [0, 0, 250], '0 = as much as the supply input; 25 V in the 2596 class (data sheet, from memory)', {
      rare: true,
    }),
    amount('rthKPerW', 'Warms up by', 'K/W', [0.1, USUAL.rthKPerW, 100], `${BASIS}; on metal, in moving air`, { rare: true }),
    amount('tjMaxC', 'May get as warm as', 'degC', [50, USUAL.tjMaxC, 175], BASIS, { rare: true }),
  ],
  variants: (Object.keys(CONVERTERS) as ConverterClass[]).map((id) => ({
    id,
    title: CONVERTERS[id].title,
    settings: id === '60v-6a' ? {} : settingsOfClass(id, CONVERTERS[id]),
  })),
  terminals: () => [
    { id: 'in', label: 'in', title: 'Vehicle supply in', side: 'left', form: 'screw', role: 'supply', flow: 'in', required: true },
    { id: 'gnd', label: 'gnd', title: 'Vehicle ground', side: 'left', form: 'screw', role: 'ground', required: true },
    { id: 'out', label: 'out', title: 'Output', side: 'right', form: 'screw', role: 'rail5', flow: 'out', required: true, nominalV: 5 },
    { id: '0v', label: '0 V', title: 'Output return', side: 'right', form: 'screw', role: 'ground', required: true },
    { id: 'en', label: 'en', title: 'Enable', side: 'bottom', form: 'screw', role: 'signal', flow: 'in' },
  ],
  symbol: () => moduleBox({ left: ['in', 'gnd'], right: ['out', '0v'], bottom: ['en'] }, 120, 60),
  behave: (s, situation) => ({
    elements: elements(s, situation),
    devices: [
      {
        id: 'run',
        wants: (probe, on) => {
          if (situation.wired('en') && !enabled(s, probe.volts('en') - probe.volts('gnd'))) return false;
          const [startV, stopV] = window(s, situation);
          return probe.volts('in') - probe.volts('gnd') > (on ? stopV : startV);
        },
        // The output comes up after the soft start; how its limit fills what stands behind it is a matter of time.
        operateS: s.num('softStartS'),
        releaseS: STOP_S,
      },
    ],
  }),
  facts: (s) => ({
    links: [{ a: 'gnd', b: '0v', type: 'join' }],
    sources: [
      {
        terminal: 'out',
        returns: '0v',
        kind: 'converter',
        nominalV: s.num('setV'),
        limitA: limits(s)[1],
        limitAssumed: s.num('limitMaxA') === 0,
        maxOhm: s.num('outOhm'),
        minOhm: s.num('outOhm'),
      },
    ],
    loads: [
      {
        plus: 'in',
        minus: 'gnd',
        label: 'input',
        nominalV: 12,
        minV: runMinV(s),
        maxV: s.num('inMaxV'),
        absMaxV: s.num('absMaxV'),
        peakA: 0,
        heatA: 0,
      },
    ],
    polar: guardedAgainst(s, 'step-down'),
  }),
  subtitle: (s) => `→ ${plain(s.num('setV'))} V, ${plain(s.num('ratedA'))} A`,
  spec: (s) =>
    `Step-down ${plain(s.num('startV'))} V to ${plain(s.num('inMaxV'))} V in, stands ${plain(s.num('absMaxV'))} V; ${plain(s.num('setV'))} V ±${plain(100 * s.num('setTol'))} %, ${plain(s.num('ratedA'))} A out${s.flag('trimmer') ? ', set by a trimmer' : ''}${s.flag('reverseGuard') ? ', reverse guard' : ''}; idle at most ${withUnit(s.num('quiescentA'), 'A')}`,
  meterPoints: (s) => [
    { plus: 'in', minus: 'gnd', what: 'What arrives at the converter' },
    { plus: 'out', minus: '0v', what: `${plain(s.num('setV'))} V, before the computer is joined` },
  ],
});

function settingsOfClass(id: ConverterClass, c: ConverterFacts): Values {
  const { title: _title, basis: _basis, source: _source, ...figures } = c;
  return { ...figures, ...(id === 'older-3a' ? { enActive: 'low', enMaxV: ENABLE_MAX_2596_V } : { enActive: 'high' }) };
}

/** Least and greatest output current it can be made to give, A. */
function limits(s: Settings): readonly [least: number, most: number] {
  const most = s.num('limitMaxA') > 0 ? s.num('limitMaxA') : UNKNOWN_LIMIT * s.num('ratedA');
  const least = s.num('limitMinA') > 0 ? s.num('limitMinA') : s.num('ratedA');
  return [Math.min(least, most), most];
}

/** What it needs once it runs, V: cranking is ridden through below the voltage at which it starts. */
function runMinV(s: Settings): number {
  return Math.max(s.num('stopV'), s.num('setV') + s.num('dropV'));
}

/** Input volts at which it starts and stops in this band: latest in the low band. */
function window(s: Settings, { band }: Situation): readonly [startV: number, stopV: number] {
  const k = byBand(band, 1, 1 - s.num('uvloTol'));
  const startV = k * s.num('startV');
  return [startV, Math.min(k * s.num('stopV'), 0.99 * startV)];
}

function enabled(s: Settings, enableV: number): boolean {
  return enableV > ENABLE.thresholdV === (s.str('enActive') === 'high');
}

function elements(s: Settings, { band, on, wired }: Situation): Element[] {
  const [least, most] = limits(s);
  const limitA = byBand(band, least, most);
  const list: Element[] = [
    { kind: 'resistor', id: 'common', a: 'gnd', b: '0v', ohm: 1e-4 },
    {
      kind: 'stepdown',
      id: 'conv',
      in: 'in',
      gnd: 'gnd',
      out: 'out',
      on: on('run'),
      setV: s.num('setV'),
      outOhm: s.num('outOhm'),
      limitA,
      dropV: s.num('dropV'),
      // Efficiency rises steeply up to about a quarter of the rating and then stays (shape of converter sheets, from memory).
      eta: [
        [Math.min(0.1, s.num('ratedA') / 8), s.num('etaLight')],
        [s.num('ratedA') / 4, s.num('etaFull')],
        [s.num('ratedA'), s.num('etaFull')],
      ],
      quiescentA: s.num('quiescentA'),
      offA: s.num('standbyA'),
      tol: { setV: s.num('setTol'), limitA: [least / limitA, most / limitA] },
    },
    { kind: 'capacitor', id: 'inC', a: 'in', b: 'gnd', farad: s.num('inF'), esrOhm: IN_ESR_OHM, leakOhm: IN_INSULATION_S / s.num('inF') },
  ];
  if (wired('en')) list.push({ kind: 'resistor', id: 'enable', a: 'en', b: 'gnd', ohm: ENABLE.ohm, tol: { ohm: 0.5 } });
  return list;
}
