import { describe, it } from 'vitest';
import { busy } from '../../src/rules/book/examples/converter-overloaded.ts';
import { clean, flagged } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'converter-overloaded';

describe('converter too small or too hot for the load', () => {
  it('6 A converter under the seat at 45 °C: 0.8 x 6 = 4.8 A', () => clean(busy(), RULE));

  it('3 A module behind the dash at 60 °C: 0.8 x 3 x (1 - 0.5 x 15/40) = 1.95 A, load 2.4 A', () => {
    const b = busy().set('converter', { ratedA: 3, limitMinA: 3.5, limitMaxA: 5 }).zone('seat', { kind: 'dash' });
    flagged(b, RULE, { level: 'fault', subject: b.id('converter'), figures: { 'gives for long': 1.95, 'drawn for long': 2.4 }, repairs: 1 });
  });

  it('what leaks beside a load that just fits is no overload: 1.2 A of 0.8 x 6 x 0.25 = 1.2 A in the engine bay', () => {
    clean(bench().zone('seat', { kind: 'engine-bay' }), RULE);
    const b = bench().zone('seat', { kind: 'engine-bay' }).set('converter', { ratedA: 5.9 });
    flagged(b, RULE, { level: 'fault', subject: b.id('converter'), figures: { 'gives for long': 1.18 }, says: ['1.18 A'] });
  });

  it('2 A module: 1.25 + 1.2 A at once is more than its rating', () => {
    const b = busy().set('converter', { ratedA: 2, limitMinA: 3.5, limitMaxA: 5 });
    flagged(b, RULE, { level: 'fault', subject: b.id('converter'), figures: { 'most drawn': 2.45 }, says: ['rated'], repairs: 1 });
  });

  it('an open module of 50 K/W: 5 V x 1.2 A x (1/0.8 - 1) = 1.5 W warms it by 75 K to 120 °C', () => {
    const module = { setV: 5, ratedA: 3, limitMinA: 3.6, limitMaxA: 6.9, etaFull: 0.8, etaLight: 0.75, rthKPerW: 50 };
    clean(bench().set('converter', { ...module, tjMaxC: 125 }), RULE);
    const b = bench().set('converter', { ...module, tjMaxC: 115 });
    flagged(b, RULE, { level: 'fault', subject: b.id('converter'), figures: { 'gets as warm as': 120 }, says: ['120 °C', '1.5 W'], repairs: 1 });
  });

  // 1.5 W on 104 K/W above 45 °C are 201 °C, on 100 K/W 195 °C: no module lives to reach the first.
  it('says that it shuts down or fails where it could not get so hot', () => {
    const module = (rthKPerW: number) =>
      bench().set('converter', { setV: 5, ratedA: 3, limitMinA: 3.6, limitMaxA: 6.9, etaFull: 0.8, etaLight: 0.75, tjMaxC: 125, rthKPerW });
    const there = module(100);
    flagged(there, RULE, { level: 'fault', subject: there.id('converter'), figures: { 'gets as warm as': 195 } });
    const beyond = bench().set('converter', { setV: 5, ratedA: 3, limitMinA: 3.6, limitMaxA: 6.9, etaFull: 0.75, etaLight: 0.7, tjMaxC: 125, rthKPerW: 100 });
    // 5 V x 1.2 A x (1/0.75 - 1) = 2 W.
    flagged(beyond, RULE, {
      level: 'fault',
      subject: beyond.id('converter'),
      figures: { 'may get as warm as': 125 },
      says: ['2.0 W', 'its limit of 125 °C long before'],
    });
  });
});
