import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().wireSet('tap', { lengthM: 0.8, areaMm2: 1 }).set('feed30', { donorFuseRead: false }),
  clean: () => bench(),
  inOrder: 'The fuse sits 0.12 m from the tap.',
};
