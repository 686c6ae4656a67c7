import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import type { Bench } from '../../src/rules/book/bench.ts';
import { bench, fused, ground } from '../rules/plans.ts';

// What somebody draws who does it for the first time. One cause is one card: exactly these hazards and faults stand there.
const camera = (b: Bench, plus: string, minus = 'ground.31'): Bench =>
  b.part('cam', 'camera', 'dash').wire(plus, 'cam.+', { lengthM: 1 }).wire('cam.-', minus, { lengthM: 1 });

const DRAWN: readonly (readonly [string, () => Bench, readonly string[]])[] = [
  [
    'a computer straight on 12 V',
    () => fused().part('c', 'computer', 'dash').wire('fuse.2', 'c.2', { lengthM: 1 }).wire('c.6', 'ground.31', { lengthM: 1 }),
    ['hazard C5', 'fault G1', 'fault G4', 'fault F1', 'fault A10'],
  ],
  [
    'a display straight on 12 V',
    () => fused().part('d', 'touch-display', 'dash').wire('fuse.2', 'd.5v').wire('d.0v', 'ground.31'),
    ['hazard C5', 'fault G1', 'fault G4', 'fault A10'],
  ],
  ['a coil without its ground', () => fused().part('k', 'relay', 'dash').wire('fuse.2', 'k.30').wire('fuse.2', 'k.86'), ['fault B14']],
  [
    'the fuse in the ground wire',
    () =>
      ground()
        .part('feed30', 'feed-30', 'dash', { proven: true }, { owner: 'vehicle' })
        .wire('battery.+', 'feed30.in', { owner: 'vehicle' })
        .part('f', 'blade-fuse', 'dash')
        .part('cam', 'camera', 'dash')
        .wire('feed30.out', 'cam.+', { lengthM: 1.5 })
        .wire('cam.-', 'f.1')
        .wire('f.2', 'ground.31'),
    ['hazard A1', 'hazard A8', 'fault G1'],
  ],
  [
    'a second battery beside the first',
    () => camera(fused().part('b2', 'battery', 'seat').wire('b2.+', 'fuse.2', { lengthM: 2.2 }).wire('b2.-', 'ground.31', { lengthM: 2.2 }), 'fuse.2'),
    ['hazard A1', 'hazard A9', 'fault G1'],
  ],
  ['a button from 12 V to a pin', () => bench().part('b', 'push-button', 'dash').wire('senseFuse.2', 'b.1').wire('b.2', 'computer.13'), ['hazard D7']],
  ['the ignition straight on a pin', () => bench().wire('senseFuse.2', 'computer.13'), ['hazard D7']],
  ['a button from 5 V to a pin', () => bench().part('b', 'push-button', 'dash').wire('computer.2', 'b.1').wire('b.2', 'computer.11'), ['hazard D7']],
  [
    'an optocoupler the wrong way round',
    () =>
      bench()
        .without('opto', 'reverse')
        .part('o', 'optocoupler', 'seat')
        .wire('sense.2', 'o.K', { lengthM: 2.3 })
        .wire('o.A', 'ground.31', { lengthM: 2.3 })
        .wire('o.C', 'computer.36')
        .wire('o.E', 'computer.39')
        .wire('pull.2', 'computer.36'),
    ['hazard C8'],
  ],
  ['an optocoupler without its resistor', () => bench().without('sense').wire('senseFuse.2', 'opto.A', { lengthM: 2.3 }), ['hazard D3']],
  ['an LED on 12 V without a resistor', () => fused().part('l', 'led', 'dash').wire('fuse.2', 'l.A').wire('l.K', 'ground.31'), ['fault J9']],
  [
    'an LED on a pin without a resistor',
    () => bench().part('l', 'led', 'dash').wire('computer.29', 'l.A').wire('l.K', 'computer.39'),
    ['fault J9', 'fault E5'],
  ],
  [
    'a capacitor in backwards',
    () => bench().without('bulk').part('c', 'capacitor', 'seat').wire('c.-', 'converter.in').wire('c.+', 'converter.gnd'),
    ['hazard C8'],
  ],
  [
    'a camera in backwards: nothing is shorted',
    () => fused().part('cam', 'camera', 'dash').wire('fuse.2', 'cam.-').wire('cam.+', 'ground.31'),
    ['hazard C8', 'fault G1', 'fault G4'],
  ],
  ['a feed joined to ground: one cause, one card', () => fused().wire('fuse.2', 'ground.31'), ['hazard B15']],
  ['a coil on a pin', () => bench().part('k', 'relay', 'dash').wire('computer.29', 'k.86').wire('k.85', 'computer.39'), ['hazard E11']],
  ['a 12 V camera on the 3.3 V pin', () => camera(bench(), 'computer.17', 'computer.39'), ['fault A15']],
  ['a 12 V camera on the converter', () => camera(bench(), 'converter.out', 'converter.0v'), ['fault A15']],
  [
    'a display on the 3.3 V pin',
    () => bench().part('d', 'touch-display', 'dash').wire('computer.1', 'd.5v').wire('d.0v', 'computer.39'),
    ['fault A15', 'fault C15'],
  ],
  [
    'the main switch in the ground wire',
    () => bench().cut('return').part('m', 'master-switch', 'dash').wire('converter.gnd', 'm.1').wire('m.2', 'ground.31'),
    ['hazard A8'],
  ],
  ['a diode the wrong way round in the feed', () => bench().into('feed', 'd', 'diode', ['K', 'A'], { type: 'schottky-60v-5a' }), ['fault C8']],
  [
    'a surge clamp in backwards',
    () =>
      bench()
        .without('clamp')
        .part('clamp', 'surge-clamp', 'seat')
        .wire('clamp.A', 'guard.in', { lengthM: 0.1 })
        .wire('clamp.K', 'converter.gnd', { lengthM: 0.1 }),
    ['hazard C8', 'fault A10'],
  ],
  [
    'a reverse guard the wrong way round',
    () => bench().cut('out', 'toConverter').wire('relay.87', 'guard.out', { lengthM: 0.2 }).wire('guard.in', 'converter.in', { lengthM: 0.1 }),
    ['fault C8'],
  ],
  [
    'a relay with a diode inside, plus at 85',
    () => fused().part('k', 'relay', 'seat', { suppression: 'diode' }).wire('fuse.2', 'k.85').wire('k.86', 'ground.31'),
    ['hazard J8'],
  ],
  ['no wire from the computer’s ground pins to the converter', () => bench().set('fuse', { ratingA: 3 }).cut('zero6', 'zero9', 'zero14'), ['fault B2']],
  [
    'a relay that nothing energises',
    () =>
      fused()
        .part('k', 'relay', 'seat')
        .part('t', 'step-down', 'seat')
        .part('c', 'computer', 'seat')
        .wire('fuse.2', 'k.30')
        .wire('k.87', 't.in')
        .wire('k.86', 'ground.31')
        .wire('k.85', 'ground.31')
        .wire('t.gnd', 'ground.31')
        .wire('t.out', 'c.2')
        .wire('t.0v', 'c.6'),
    ['fault C5', 'fault F1', 'fault J2'],
  ],
];

describe('what a beginner draws', () => {
  it.each(DRAWN)('%s', (_, draw, expected) => {
    const { report } = computeResults(draw().plan);
    expect(report.crashed).toEqual([]);
    const told = report.cards.filter((c) => c.level !== 'advice').map((c) => `${c.level} ${c.code}`);
    expect(told.sort()).toEqual([...expected].sort());
    // One card, one subject: what the same mistake does elsewhere is folded.
    for (const c of report.cards) if (c.level !== 'advice') expect(c.findings, c.findings.map((f) => f.what).join('\n')).toHaveLength(1);
  });
});
