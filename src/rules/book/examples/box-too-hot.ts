import type { ZoneKind } from '../../../plan/types.ts';
import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

const boxed = (box: string, kind: ZoneKind): Bench => bench().set('computer', { box }).zone('seat', { kind });

export const example: Example = {
  flagged: () => boxed('closed', 'dash'),
  clean: () => boxed('vented', 'under-seat'),
  inOrder: 'Holes in the box, under a seat: 63 °C inside.',
};
