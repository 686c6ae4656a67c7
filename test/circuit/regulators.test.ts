import { describe, expect, it } from 'vitest';
import type { Element } from '../../src/circuit/index.ts';
import { feed, near, ohms, solved } from './solved.ts';

type StepDown = Extract<Element, { kind: 'stepdown' }>;

const converter = (extra: Partial<StepDown> = {}): StepDown => ({
  kind: 'stepdown',
  id: 'c',
  in: 'in',
  gnd: '0',
  out: 'out',
  on: true,
  setV: 5.1,
  outOhm: 0.02,
  limitA: 3,
  dropV: 1,
  // LM2596 class at 12 V in, 5 V out: 80 % at 3 A (National data sheet SNVS124, read); lower points from memory.
  eta: [
    [0.1, 0.7],
    [1, 0.85],
    [3, 0.8],
  ],
  quiescentA: 0.005,
  offA: 8e-5,
  ...extra,
});

const withLoad = (volt: number, loadOhm: number, extra: Partial<StepDown> = {}) =>
  solved([feed(volt, 'in', 0.01), converter(extra), ohms('load', 'out', '0', loadOhm)]);

describe('the step-down converter', () => {
  it('holds its set volts behind its output resistance', () => {
    const s = withLoad(12, 5);
    near(s.i('load'), 5.1 / 5.02, 1e-6);
    near(s.v('out'), (5.1 * 5) / 5.02, 1e-6);
    near(s.i('c', 'out'), s.i('load'), 1e-6);
  });

  it('draws output power over efficiency, plus its quiescent current', () => {
    // I_in = V_out I_out / (eta V_in) + I_q; efficiency interpolated between its points, held at the ends.
    for (const [loadA, eta] of [
      [0.05, 0.7],
      [0.1, 0.7],
      [0.55, 0.775],
      [1, 0.85],
      [2, 0.825],
      [2.9, 0.8025],
    ] as const) {
      const s = withLoad(13, 5.1 / loadA - 0.02);
      near(s.i('c', 'out'), loadA, 1e-5);
      near(s.i('c', 'in'), (s.v('out') * loadA) / (eta * s.v('in')) + 0.005, 1e-5);
    }
  });

  it('never counts an efficiency below 5 %', () => {
    const s = withLoad(12, 500, { eta: [[1, 0.001]] });
    near(s.i('c', 'in') - 0.005, (s.v('out') * s.i('load')) / (0.05 * s.v('in')), 1e-5);
  });

  it('follows the input less its drop-out when the input is too low', () => {
    const s = withLoad(5.5, 10, { outOhm: 1e-4 });
    near(s.v('out'), s.v('in') - 1, 1e-4);
    // Well above, the set volts.
    near(withLoad(6.5, 10, { outOhm: 1e-4 }).v('out'), 5.1, 1e-4);
  });

  it('folds back to a constant current at its limit', () => {
    const s = withLoad(12, 1);
    near(s.i('c', 'out'), 3, 1e-5);
    near(s.v('out'), 3, 1e-5);
    // Even into a short: the input power falls with the output volts.
    const short = withLoad(12, 0.01);
    near(short.i('c', 'out'), 3, 1e-5);
    near(short.i('c', 'in'), (0.03 * 3) / (0.8 * short.v('in')) + 0.005, 1e-4);
  });

  it('cannot sink: a higher voltage on its output draws nothing through it', () => {
    const s = solved([feed(12, 'in', 0.01), converter(), { kind: 'source', id: 'other', a: 'out', b: '0', volt: 5.4, ohm: 0.01 }]);
    expect(Math.abs(s.i('c', 'out'))).toBeLessThan(1e-8);
    near(s.v('out'), 5.4, 1e-6);
    near(s.i('c', 'in'), 0.005, 1e-4);
  });

  it('shares between two converters until the higher one reaches its limit', () => {
    const s = solved([feed(12, 'in', 0.01), converter({ id: 'c1', setV: 5.2 }), converter({ id: 'c2', setV: 5.0 }), ohms('load', 'out', '0', 1.25)]);
    near(s.i('c1', 'out'), 3, 1e-4);
    near(s.i('c1', 'out') + s.i('c2', 'out'), s.i('load'), 1e-9);
    near(s.v('out'), 5.0 - 0.02 * s.i('c2', 'out'), 1e-5);
  });

  it('is open at the output and draws its off current when off', () => {
    const s = withLoad(12, 5, { on: false });
    expect(Math.abs(s.v('out'))).toBeLessThan(1e-9);
    near(s.i('c', 'in'), 8e-5, 1e-3);
  });

  it('draws nothing from a dead rail', () => {
    const s = solved([ohms('bleed', 'in', '0', 1000), converter(), ohms('load', 'out', '0', 5)]);
    expect(Math.abs(s.v('in'))).toBeLessThan(1e-9);
    expect(Math.abs(s.v('out'))).toBeLessThan(1e-6);
  });

  it('works with its own ground above the battery negative', () => {
    const s = solved([feed(12, 'in', 0.01), converter({ gnd: 'g' }), ohms('return', 'g', '0', 0.1), ohms('load', 'out', 'g', 5)]);
    near(s.v('out') - s.v('g'), (5.1 * 5) / 5.02, 1e-6);
    near(s.v('g'), 0.1 * s.i('c', 'in'), 1e-5);
  });
});

describe('the linear regulator', () => {
  it('turns 4.5 W into heat from 14 V at 0.5 A', () => {
    // 7805 power note (read): (14 - 5) x 0.5 = 4.5 W, before its own quiescent current.
    const s = solved([
      { kind: 'source', id: 'feed', a: 'in', b: '0', volt: 14, ohm: 1e-4 },
      { kind: 'linear', id: 'r', in: 'in', gnd: '0', out: 'out', setV: 5, outOhm: 1e-4, limitA: 1.5, dropV: 2, quiescentA: 0.0042 },
      ohms('load', 'out', '0', 10),
    ]);
    near(s.i('r', 'out'), 0.5, 1e-4);
    near(s.i('r', 'in'), 0.5042, 1e-4);
    const heat = s.v('in') * s.i('r', 'in') - s.v('out') * s.i('r', 'out');
    near(heat - 14 * 0.0042, 4.5, 1e-3);
  });

  it('drops out and limits as the converter does', () => {
    const at = (volt: number, ohm: number) =>
      solved([
        { kind: 'source', id: 'feed', a: 'in', b: '0', volt, ohm: 1e-4 },
        { kind: 'linear', id: 'r', in: 'in', gnd: '0', out: 'out', setV: 5, outOhm: 1e-4, limitA: 1.5, dropV: 2, quiescentA: 0.0042 },
        ohms('load', 'out', '0', ohm),
      ]);
    near(at(6, 100).v('out'), 4, 1e-3);
    near(at(12, 1).i('r', 'out'), 1.5, 1e-4);
    near(at(12, 1).i('r', 'in'), 1.5042, 1e-4);
  });
});
