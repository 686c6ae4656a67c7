import type { Values } from '../../plan/types.ts';
import { CLAMPS, type ClampFacts } from '../../trade/semiconductors.ts';
import { definePart } from '../definePart.ts';
import { amount, yesNo } from '../settings.ts';
import { inlineBody, zenerGlyph } from '../symbols.ts';
import type { Settings } from '../types.ts';
import { plain } from '../values.ts';

const C33 = CLAMPS['33v'];
const BASIS = `${C33.source}, ${C33.basis}`;

/** The figures of a clamp as settings. */
function ratings(c: ClampFacts): Values {
  return { standoffV: c.standoffV, brMinV: c.brMinV, brMaxV: c.brMaxV, clampV: c.clampV, peakA: c.peakA, pulseW: c.pulseW };
}

/** Breakdown rises with temperature, 1/K (surge suppressor sheets, from memory). */
const BREAKDOWN_PER_K = 0.001;

/** Surge suppressor between the supply and ground: behind the fuse, ahead of what it guards. */
export const surgeClamp = definePart({
  kind: 'surge-clamp',
  title: 'Surge clamp',
  group: 'Protect',
  about: 'Does nothing at working volts and conducts hard above them, so that a surge of the vehicle does not reach the converter. Sits behind the fuse.',
  words: ['suppressor', 'transient', 'load dump', 'surge', 'zener', 'avalanche'],
  letter: 'F',
  settings: [
    amount('standoffV', 'Stand-off voltage', 'V', [5, C33.standoffV, 200], BASIS, {
      help: 'Below this it does not conduct; it must lie above a jump start at 26 V.',
    }),
    amount('brMinV', 'Least breakdown', 'V', [5, C33.brMinV, 250], BASIS),
    amount('brMaxV', 'Greatest breakdown', 'V', [5, C33.brMaxV, 300], BASIS),
    amount('clampV', 'Volts at its peak current', 'V', [6, C33.clampV, 400], BASIS),
    amount('peakA', 'Peak current', 'A', [0.5, C33.peakA, 1000], BASIS),
    amount('pulseW', 'Peak power', 'W', [100, C33.pulseW, 30_000], BASIS),
    amount('energyJ', 'Energy of one long pulse', 'J', [0.1, 1, 500], '600 W over 10/1000 µs is 0.6 J to 1 J; common practice, no source', {
      help: 'A load dump can carry over 100 J: a small clamp fails short then.',
    }),
    yesNo('bidirectional', 'Same both ways', false, 'one-way parts also catch reversed spikes; common practice, no source'),
  ],
  variants: [
    { id: 'c33', title: '33 V stand-off, 600 W', settings: {} },
    { id: 'c28', title: '28 V stand-off, 600 W', settings: ratings(CLAMPS['28v']) },
    { id: 'c24', title: '24 V stand-off, 600 W', settings: ratings(CLAMPS['24v']) },
    { id: 'load-dump', title: 'Load-dump class, 33 V', settings: { ...ratings(CLAMPS['33v-load-dump']), energyJ: CLAMPS['33v-load-dump'].energyJ } },
  ],
  terminals: () => [
    { id: 'K', label: 'K', title: 'Cathode, to the supply', side: 'left', form: 'lead', role: 'supply', required: true },
    { id: 'A', label: 'A', title: 'Anode, to ground', side: 'right', form: 'lead', role: 'ground', groundElsewhere: true, required: true },
  ],
  symbol: (s) => inlineBody('K', 'A', zenerGlyph(30, 10, s.flag('bidirectional')), s.flag('bidirectional') ? 16 : 8),
  behave: (s, { ambientC }) => {
    const { middleV, ohm } = curve(s);
    return {
      elements: [
        {
          kind: 'zener',
          id: 'clamp',
          a: 'K',
          b: 'A',
          vBr: middleV * (1 + BREAKDOWN_PER_K * (ambientC - 25)),
          ohm,
          bidirectional: s.flag('bidirectional'),
          tol: { vBr: [s.num('brMinV') / middleV, s.num('brMaxV') / middleV] },
        },
      ],
    };
  },
  facts: (s) => ({
    links: [{ a: 'K', b: 'A', type: 'clamp' }],
    ...(s.flag('bidirectional') ? {} : { polar: [{ plus: 'K', minus: 'A', what: 'one-way clamp', reverseV: 0 }] }),
  }),
  subtitle: (s) => `${plain(s.num('standoffV'))} V`,
  spec: (s) =>
    `Surge clamp, ${plain(s.num('standoffV'))} V stand-off, at most ${plain(s.num('clampV'))} V at ${plain(s.num('peakA'))} A, ${plain(s.num('pulseW'))} W 10/1000 µs, ${s.flag('bidirectional') ? 'both ways' : 'one way'}`,
  meterPoints: () => [{ plus: 'K', minus: 'A', what: 'Supply at the clamp' }],
});

/** Middle of the breakdown range and slope up to the clamping point. */
function curve(s: Settings): { middleV: number; ohm: number } {
  const middleV = (s.num('brMinV') + s.num('brMaxV')) / 2;
  return { middleV, ohm: Math.max(1e-3, (s.num('clampV') - s.num('brMaxV')) / s.num('peakA')) };
}
