import type { ZoneKind } from '../../../plan/types.ts';
import type { Bench } from '../bench.ts';
import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

/** A dash camera with a cell of its own. */
const camera = (kind: ZoneKind): Bench => withCamera(fused('camera with a cell'), { lithium: true }).zone('dash', { kind });

export const example: Example = {
  flagged: () => camera('dash-top'),
  clean: () => camera('console'),
  inOrder: 'In the centre console it gets 60 °C at the most.',
  also: ['fuse'],
};
