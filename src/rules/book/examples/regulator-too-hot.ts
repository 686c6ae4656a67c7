import { fused } from '../plans.ts';
import type { Example } from '../types.ts';

/** A linear regulator with one 5 V load. */
const linear = (amp: number) =>
  fused('linear')
    .part('regulator', 'linear-regulator', 'seat')
    .part('display', 'touch-display', 'seat', { typA: amp, peakA: amp })
    .wire('fuse.2', 'regulator.in', { lengthM: 2 })
    .wire('regulator.gnd', 'ground.31', { lengthM: 2 })
    .wire('regulator.out', 'display.5v', { lengthM: 0.2, areaMm2: 0.5 })
    .wire('display.0v', 'regulator.gnd', { lengthM: 0.2, areaMm2: 0.5 });

export const example: Example = {
  flagged: () => linear(0.5),
  clean: () => linear(0.06),
  inOrder: '60 mA burn two thirds of a watt; more wants a step-down converter.',
  also: ['fuse', 'display', 'ground'],
};
