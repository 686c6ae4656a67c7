import type { Bench } from '../bench.ts';
import { ground } from '../plans.ts';
import type { Example } from '../types.ts';

/** Permanent and accessory lead, each with its fuse. */
function two(): Bench {
  return ground('two leads')
    .part('feed30', 'feed-30', 'dash', { donorFuseRead: true }, { owner: 'vehicle' })
    .part('feed75', 'feed-75', 'dash', { donorFuseRead: true }, { owner: 'vehicle' })
    .part('fuse', 'blade-fuse', 'dash')
    .part('fuse75', 'blade-fuse', 'dash')
    .part('converter', 'step-down', 'dash')
    .wire('battery.+', 'feed30.in', { owner: 'vehicle' })
    .wire('battery.+', 'feed75.in', { owner: 'vehicle' })
    .wire('feed30.out', 'fuse.1', { lengthM: 0.1 })
    .wire('feed75.out', 'fuse75.1', { lengthM: 0.1 })
    .wire('converter.gnd', 'ground.31');
}

export const example: Example = {
  flagged: () => two().wire('fuse.2', 'converter.in').wire('fuse75.2', 'converter.in'),
  clean: () =>
    two()
      .part('d30', 'diode', 'dash', { type: '1n4007' })
      .part('d75', 'diode', 'dash', { type: '1n4007' })
      .wire('fuse.2', 'd30.A')
      .wire('fuse75.2', 'd75.A')
      .wire('d30.K', 'converter.in')
      .wire('d75.K', 'converter.in'),
  inOrder: 'Each feed has a diode of its own: nothing can run from one into the other.',
  also: ['feed30', 'feed75', 'fuse', 'fuse75', 'converter', 'ground'],
};
