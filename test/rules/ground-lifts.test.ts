import { describe, expect, it } from 'vitest';
import { makeFacts } from '../../src/analysis/facts.ts';
import { ruleById } from '../../src/rules/index.ts';
import { clean, compute, flagged } from './harness.ts';
import { type Bench, bench, fused } from './plans.ts';
import { withCutout } from './plansSense.ts';

const RULE = 'ground-lifts';

/** A load of 3 A on a ground point. */
function loaded(settings: Readonly<Record<string, string | number>>, amp = 3): Bench {
  return fused('loaded')
    .set('ground', settings)
    .part('camera', 'camera', 'dash', { typA: amp, nightA: amp })
    .wire('fuse.2', 'camera.+', { lengthM: 1 })
    .wire('camera.-', 'ground.31', { lengthM: 1 });
}

describe('ground lifts under load', () => {
  // Worked by hand: 3 A x 80 mohm = 0.24 V; 3 A x 9 mohm = 27 mV.
  it('3 A over the 80 mΩ of a painted bolt: 0.24 V', () => {
    const b = loaded({ place: 'painted-bolt' });
    flagged(b, RULE, { level: 'fault', subject: b.id('ground'), figures: { 'lifts by': 0.24 }, says: ['0.24 V'], repairs: 1 });
  });

  it('no place is good enough for a short: 60 A over the 2 mΩ of the stud lift it by 0.12 V', () => {
    const b = fused('short')
      .set('ground', { place: 'painted-bolt' })
      .part('load', 'resistor', 'dash', { ohm: 0.1 })
      .wire('fuse.2', 'load.1', { lengthM: 0.1, areaMm2: 16 })
      .wire('load.2', 'ground.31', { lengthM: 0.1, areaMm2: 16 });
    const { filled, analysis, report } = compute(b);
    const finding = report.findings.find((f) => f.rule === RULE)!;
    const amp = finding.figures.find((f) => f.unit === 'A')!.value;
    expect(amp * 0.002).toBeGreaterThan(0.1);
    expect(ruleById.get(RULE)!.repair!(finding, makeFacts(filled, analysis))).toEqual([]);
  });

  it('3 A over a measured 9 mΩ: 27 mV', () => {
    clean(loaded({ measuredOhm: 0.009 }), RULE);
  });

  it('just either side of 0.1 V', () => {
    clean(loaded({ measuredOhm: 0.033 }), RULE);
    const b = loaded({ measuredOhm: 0.034 });
    flagged(b, RULE, { level: 'fault', subject: b.id('ground'), figures: { 'lifts by': 0.102 } });
  });

  it('a button that hangs on the body reads what the return wire loses', () => {
    const b = bench()
      .set('computer', { gpio5Mode: 'in-up' })
      .wireSet('return', { areaMm2: 0.5 })
      .part('button', 'push-button', 'dash')
      .wire('button.1', 'computer.29', { lengthM: 2.3 }, 'press')
      .wire('button.2', 'ground.31', { lengthM: 0.2 });
    flagged(b, RULE, { level: 'fault', subject: b.wireId('press'), says: ['button', 'below the 0 V'], repairs: 1 });
    clean(b.wireSet('return', { areaMm2: 6 }), RULE);
  });

  it('on the computer’s own 0 V it does not matter how thin the return is', () => {
    const b = bench()
      .set('computer', { gpio5Mode: 'in-up' })
      .wireSet('return', { areaMm2: 0.5 })
      .part('button', 'push-button', 'dash')
      .wire('button.1', 'computer.29', { lengthM: 2.3 })
      .wire('button.2', 'computer.30', { lengthM: 2.3 });
    clean(b, RULE);
  });

  it('the warning of a cut-out with a ground of its own', () => {
    const b = withCutout().wireSet('return', { areaMm2: 0.22 }).wire('cutout.warn', 'computer.29', { lengthM: 0.3 }, 'warning');
    flagged(b, RULE, { level: 'fault', subject: b.wireId('warning'), says: ['cutout'] });
  });
});
